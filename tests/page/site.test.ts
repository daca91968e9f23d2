import fs from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { violations } from './accessible.ts';
import { startBrowser } from './open-page.ts';

/* The site of the documents, opened as files: no server, no network. */

const SHOTS = path.join(ROOT, '.cache/screenshots/site');
const addressOf = (page: string) => pathToFileURL(path.join(ROOT, 'site', page)).href;

let browser: Browser;
beforeAll(async () => {
  browser = await startBrowser();
  fs.mkdirSync(SHOTS, { recursive: true });
});
afterAll(() => browser?.close());

async function open(page: string, scheme: 'light' | 'dark', width = 1440): Promise<Page> {
  const context = await browser.newContext({ colorScheme: scheme, viewport: { width, height: 900 } });
  const tab = await context.newPage();
  const asked: string[] = [];
  tab.on('request', (request) => asked.push(request.url()));
  tab.on('pageerror', (error) => asked.push(`error: ${error.message}`));
  await tab.goto(addressOf(page));
  expect(asked.filter((url) => !url.startsWith('file:'))).toEqual([]);
  return tab;
}

const PAGES = [
  'index.html',
  'docs/tutorial.html',
  'docs/values.html',
  'docs/findings/polarity-sensor-kind.html',
];

describe.each(['light', 'dark'] as const)('in %s', (scheme) => {
  it.each(PAGES)('the checker finds nothing on %s', async (name) => {
    const tab = await open(name, scheme);
    await tab.screenshot({ path: path.join(SHOTS, `${scheme}-${path.basename(name, '.html')}.png`) });
    expect(await violations(tab)).toEqual([]);
    await tab.context().close();
  });
});

it.each(PAGES)('%s fits on a narrow screen', async (name) => {
  const tab = await open(name, 'light', 360);
  await tab.screenshot({ path: path.join(SHOTS, `narrow-${path.basename(name, '.html')}.png`) });
  expect(await tab.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  expect(await violations(tab)).toEqual([]);
  await tab.context().close();
});

it('is searched with the keyboard alone', async () => {
  const tab = await open('docs/findings/polarity-sensor-kind.html', 'light');
  await tab.keyboard.press('/');
  await tab.keyboard.type('pulses per length');
  await tab.locator('#results a').first().waitFor();
  await tab.screenshot({ path: path.join(SHOTS, 'search.png') });
  expect(await violations(tab)).toEqual([]);
  await tab.keyboard.press('ArrowDown');
  await tab.keyboard.press('Enter');
  await tab.waitForURL(/\.html/);
  expect(await tab.locator('main').textContent()).toMatch(/pulses per length/i);
  await tab.keyboard.press('/');
  await tab.keyboard.type('qqqxyz');
  await tab.locator('#results p', { hasText: 'Nothing about' }).waitFor();
  await tab.keyboard.press('Escape');
  expect(await tab.locator('#results').isVisible()).toBe(false);
  await tab.context().close();
});

it('is read from top to bottom by its next links, and says where one is', async () => {
  const tab = await open('index.html', 'light');
  const seen: string[] = [];
  for (;;) {
    seen.push((await tab.locator('#menu [aria-current="page"]').textContent()) ?? '');
    const next = tab.locator('.steps a[rel="next"]');
    if ((await next.count()) === 0) break;
    await next.click();
  }
  expect(seen).toEqual(await tab.locator('#menu a').allTextContents());
  expect(seen.length).toBeGreaterThan(20);
  await tab.context().close();
});
