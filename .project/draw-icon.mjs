// Draws the extension's icon from its SVG source as the picture of 128 pixels that the manifest needs.
import { readFileSync } from 'node:fs';
import { chromium } from 'playwright-core';

const icons = new URL('../client/icons/', import.meta.url);
const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  args: ['--no-sandbox', '--disable-gpu'],
});
const page = await browser.newPage({ viewport: { width: 128, height: 128 } });
await page.setContent(`<body style="margin:0">${readFileSync(new URL('fettle.svg', icons), 'utf8')}</body>`);
await page.screenshot({ path: new URL('fettle-128.png', icons).pathname, omitBackground: true });
await browser.close();
