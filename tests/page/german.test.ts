import { beforeAll, expect, it } from 'vitest';
import { speak } from '../../server/core/language/say.ts';
import { germanWords } from '../support/german.ts';
import { violations } from './accessible.ts';
import { exampleItems } from './example.ts';
import { makeServer, URI } from './made-up-server.ts';
import { hostPage, type Opened, openPage, PAPER } from './open-page.ts';

/** The page in German: its own words, the server's, and room for both. One page serves all tests, in their order. */

const host = hostPage();

// This file's process is the server, and has its language as one.
speak(germanWords());
const items = exampleItems(['sheet: generic/supply-24v,', 'sheet: generic/supply-48v,']);

let opened: Opened;
beforeAll(async () => {
  const server = makeServer(() => items, 'Fairground router', true);
  opened = await openPage(host.browser, `${host.url}?de`, server);
  await opened.page.locator('.wiring').waitFor({ timeout: 90_000 });
}, 120_000);

it('names its language, and says in it what it says itself', async () => {
  const { page } = opened;
  expect(await page.evaluate(() => [document.documentElement.lang, document.title])).toEqual([
    'de',
    'Verdrahtungsübersicht',
  ]);
  await page.getByRole('navigation', { name: 'Abschnitte' }).getByText('Klemmenpläne').waitFor();
  await page.getByRole('button', { name: 'Seite speichern' }).waitFor();
  await page.getByRole('status').getByText('Der Text hat Fehler').waitFor();
  await page.getByRole('button', { name: 'Vergrößern (Plustaste)' }).waitFor();
  await page.getByRole('group', { name: /^Verdrahtungsplan\. Pfeiltasten/ }).waitFor();
  await page.getByRole('searchbox', { name: 'Zeilen filtern: Was jeder Eingang sieht' }).waitFor();
});

it('says what a heading is flagged with to those who do not see the sign', async () => {
  const flagged = opened.page.locator('h3[data-flag="error"]').first();
  await expect.poll(() => flagged.ariaSnapshot()).toMatch(/\(Fehler\)/);
});

it('has the words of its pictures inside of them', async () => {
  const outside = await opened.page.evaluate(() => {
    const folds = [...document.querySelectorAll<HTMLDetailsElement>('details.folded')];
    for (const fold of folds) fold.open = true;
    const found = [...document.querySelectorAll<SVGSVGElement>('.pic')].flatMap((picture) => {
      const { left, right } = picture.getBoundingClientRect();
      return [...picture.querySelectorAll('text')]
        .filter((text) => {
          const box = text.getBoundingClientRect();
          return box.left < left - 1 || box.right > right + 1;
        })
        .map((text) => text.textContent);
    });
    for (const fold of folds) fold.open = false;
    return { found, folds: folds.length };
  });
  expect(outside.folds).toBeGreaterThan(20);
  expect(outside.found).toEqual([]);
});

it('gives the checker nothing to find', { timeout: 120_000 }, async () => {
  expect(await violations(opened.page)).toEqual([]);
});

it.each([1100, 550, 320])(
  'cuts nothing off at %d pixels, and shows each heading that is jumped to below the bar',
  async (width) => {
    const { page } = opened;
    await page.setViewportSize({ width, height: 800 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    for (const name of ['Klemmenpläne', 'Einstellblatt', 'Eingänge']) {
      await page.locator('.contents-entry').getByText(name, { exact: true }).click();
      const [bar, heading] = await Promise.all([
        page.locator('.bar').boundingBox(),
        page.getByRole('heading', { name, exact: true, level: 2 }).boundingBox(),
      ]);
      expect(heading?.y, name).toBeGreaterThanOrEqual((bar?.y ?? 0) + (bar?.height ?? 0));
      expect(heading?.y, name).toBeLessThan(400);
    }
  },
);

it('saves itself in German, with nothing over the edge of the paper', { timeout: 120_000 }, async () => {
  const { page, heard } = opened;
  await page.getByRole('button', { name: 'Seite speichern' }).click();
  const saved = async () => (await heard()).find((message) => message.kind === 'save');
  await expect.poll(saved, { timeout: 90_000 }).toBeDefined();
  const { text = '' } = (await saved()) ?? {};
  expect(text).toMatch(/<html lang="de">[\s\S]*<title>Fairground router: Verdrahtungsübersicht</);
  expect(text).toContain('content: "Seite " counter(page) " von " counter(pages) "";');
  const paper = await host.browser.newPage({ viewport: PAPER });
  await paper.setContent(text);
  await paper.emulateMedia({ media: 'print' });
  const wide = await paper.evaluate(
    (width) =>
      [...document.querySelectorAll('table, .pic, h1, h2, h3, p, li')]
        .filter((element) => element.getBoundingClientRect().right > width + 1)
        .map((element) => element.textContent?.slice(0, 60)),
    PAPER.width,
  );
  await paper.pdf({ path: '.cache/look/report.pdf', preferCSSPageSize: true });
  await paper.close();
  expect(wide).toEqual([]);
});

it('says in it why there is nothing, or nothing new, to see', async () => {
  const { page, tell, complaints } = opened;
  await tell({ kind: 'unavailable', uri: URI, why: 'Keine Antwort.' });
  await page.getByText('Keine Antwort. Was hier steht, ist möglicherweise veraltet.').waitFor();
  await tell({ kind: 'empty', closed: { uri: URI, name: 'a.machine.yaml' } });
  await page.getByRole('button', { name: 'a.machine.yaml öffnen' }).waitFor();
  await tell({ kind: 'empty', closed: null });
  await page.getByRole('heading', { name: 'Keine Maschine ist geöffnet' }).waitFor();
  expect(complaints).toEqual([]);
});
