import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readExamples } from '../support/examples.ts';
import { ROOT } from '../support/lsp-client.ts';
import { ACROSS, hostPage, PAPER } from './open-page.ts';

const host = hostPage();
const folder = mkdtempSync(path.join(tmpdir(), 'fettle-printed-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Writes the report of an example by the command line, and opens it as paper would show it. */
async function openReport(name: string, ...options: readonly string[]): Promise<Page> {
  const file = path.join(folder, `${name}${options.join('')}.html`);
  const machine = path.join(ROOT, 'examples', name, `${name}.machine.yaml`);
  execFileSync(process.execPath, [
    path.join(ROOT, 'dist/cli.cjs'),
    'report',
    ...options,
    '-o',
    file,
    machine,
  ]);
  const page = await host.browser.newPage({ viewport: PAPER });
  await page.goto(pathToFileURL(file).href);
  await page.emulateMedia({ media: 'print' });
  return page;
}

/** How many sheets the browser prints. */
async function countSheets(page: Page): Promise<number> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  return pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
}

/** What a shop prints and keeps: more sheets than these nobody leafs through. */
const MOST_SHEETS = 50;

/** The smallest letters that are read at arm's length, in points; common practice, no source. */
const LEAST_LETTERS = 6;

describe.each(readExamples().map(({ name }) => name))('the printed report of %s', (name) => {
  let page: Page;
  beforeAll(async () => {
    page = await openReport(name);
  });
  afterAll(() => page.close());

  it('is of no more sheets than somebody leafs through', async () => {
    const sheets = await countSheets(page);
    process.stdout.write(`${name}: ${sheets} sheets\n`);
    expect(sheets).toBeGreaterThan(10);
    expect(sheets).toBeLessThanOrEqual(MOST_SHEETS);
  });

  it('has every box to tick in its own row', async () => {
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
    expect(boxes).toBeGreaterThan(20);
    expect(strays).toBe(0);
  });

  it('lets no table or picture run over the edge of the sheet', async () => {
    const wide = await page.evaluate(
      (width) =>
        [...document.querySelectorAll('table, .pic, h1, h2, h3, p, li')]
          .filter((element) => element.getBoundingClientRect().right > width + 1)
          .map((element) => element.textContent?.slice(0, 60)),
      PAPER.width,
    );
    expect(wide).toEqual([]);
  });

  it('has no letters in pictures that are too small to be read', async () => {
    expect(await findSmallLetters(page, '.pic')).toEqual([]);
    await page.setViewportSize(ACROSS);
    expect(await findSmallLetters(page, '.drawing > .wiring')).toEqual([]);
    await page.setViewportSize(PAPER);
  });

  it('has sheets of the drawing that a page has room for, with what is said above and below', async () => {
    await page.setViewportSize(ACROSS);
    const sheets = await page.evaluate(() =>
      [...document.querySelectorAll('.drawing')].flatMap((sheet) => {
        const { height, right } = sheet.getBoundingClientRect();
        const picture = sheet.querySelector('svg')?.getBoundingClientRect().right ?? 0;
        return height > 0 ? [{ height, right: Math.max(right, picture) }] : [];
      }),
    );
    const heading = await page
      .locator('[data-section="drawing"] > h2')
      .evaluate((h2) => h2.getBoundingClientRect().height);
    await page.setViewportSize(PAPER);
    expect(sheets.length).toBeGreaterThan(5);
    for (const [index, { height, right }] of sheets.entries()) {
      expect(height + (index === 0 ? heading : 0), `sheet ${index + 1}`).toBeLessThan(ACROSS.height);
      expect(right, `sheet ${index + 1}`).toBeLessThanOrEqual(ACROSS.width + 1);
    }
  });
});

/** What is printed smaller than can be read, with its size in points, of the pictures of a kind. Fails where there are none. */
async function findSmallLetters(page: Page, pictures: string): Promise<readonly string[]> {
  const texts = await page.evaluate(
    (selector) =>
      [...document.querySelectorAll<SVGSVGElement>(selector)]
        .filter((picture) => picture.getBoundingClientRect().width > 0)
        .flatMap((picture) => [...picture.querySelectorAll<SVGTextElement>('text')])
        .filter((text) => text.textContent?.trim() && getComputedStyle(text).display !== 'none')
        .map((text) => ({
          words: text.textContent ?? '',
          points: Number.parseFloat(getComputedStyle(text).fontSize) * (text.getScreenCTM()?.a ?? 0) * 0.75,
        })),
    pictures,
  );
  expect(texts.length).toBeGreaterThan(100);
  return texts
    .filter(({ points }) => points < LEAST_LETTERS)
    .map(({ words, points }) => `${words}: ${points.toFixed(1)}`);
}

it('prints the sections that are asked for, in their order, and no others', async () => {
  const page = await openReport('gantry-router', '--section', 'charts', '--section', 'title');
  const sections = await page
    .locator('[data-section]')
    .evaluateAll((all) => all.map((each) => each.getAttribute('data-section')));
  expect(sections).toEqual(['title', 'charts']);
  expect(await countSheets(page)).toBeLessThan(10);
  await page.close();
});
