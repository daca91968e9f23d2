import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { EXAMPLE_FILE } from '../support/example.ts';
import { ROOT } from '../support/lsp-client.ts';
import { startBrowser } from './open-page.ts';

let browser: Awaited<ReturnType<typeof startBrowser>>;
const folder = mkdtempSync(path.join(tmpdir(), 'fettle-printed-'));
const report = path.join(folder, 'report.html');
beforeAll(async () => {
  execFileSync(process.execPath, [path.join(ROOT, 'dist/cli.cjs'), 'report', '-o', report, EXAMPLE_FILE]);
  browser = await startBrowser();
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

it('every box to tick on the printed page stands in its own row', async () => {
  const page = await browser.newPage();
  await page.goto(pathToFileURL(report).href);
  await page.emulateMedia({ media: 'print' });
  const { boxes, strays } = await page.evaluate(() => {
    const ROW = 'tr, .step';
    const all = [...document.querySelectorAll('.tick-box')];
    const isIn = (box: Element) => {
      const [inner, outer] = [box, box.closest(ROW) ?? box].map((each) => each.getBoundingClientRect());
      return (
        inner !== undefined && outer !== undefined && inner.top >= outer.top && inner.bottom <= outer.bottom
      );
    };
    return { boxes: all.length, strays: all.filter((box) => !box.closest(ROW) || !isIn(box)).length };
  });
  expect(boxes).toBeGreaterThan(60);
  expect(strays).toBe(0);
  await page.close();
});
