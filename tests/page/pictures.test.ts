import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { SECTIONS } from '../../server/core/summary/summary.ts';
import { compareImages } from './compare-images.ts';
import { exampleItems } from './example.ts';
import { makeServer } from './made-up-server.ts';
import { hostPage, LIGHT, openPage, THEMES } from './open-page.ts';

/*
 * What every section looks like in every theme and on paper, kept as small pictures. UPDATE_BASELINES=1 writes them anew;
 * look at them before they are committed. What was seen last stands in .cache/tests/page, for comparing by eye.
 */
const BASELINES = new URL('baselines/', import.meta.url);
const SEEN = new URL('../../.cache/tests/page/', import.meta.url);
const isUpdating = process.env.UPDATE_BASELINES === '1';
/** Another version of the browser smooths letters in another way; a missing picture or a lost colour is far above this. */
const TOLERANCE = 0.04;
const MOST_BYTES = 3_000_000;
const SIZE = { width: 1000, height: 680 };

const host = hostPage();
beforeAll(() => {
  for (const folder of [BASELINES, SEEN]) mkdirSync(folder, { recursive: true });
});

/** Takes a picture of the upper part of a section. */
async function shoot(page: Page, section: string): Promise<Buffer> {
  const box = await page.locator(`[data-section="${section}"]`).evaluate((element) => {
    scrollTo(0, element.getBoundingClientRect().top + scrollY);
    const { x, y, width, height } = element.getBoundingClientRect();
    return { x, y, width, height };
  });
  const clip = { ...box, height: Math.min(box.height, SIZE.height - box.y) };
  return page.screenshot({ type: 'jpeg', quality: 40, clip });
}

async function compare(page: Page, look: string): Promise<void> {
  await page.evaluate(() => document.fonts.ready);
  await page.locator('[data-item="loop:panel.I1"] summary').click();
  await page.mouse.move(0, 0);
  const differing: string[] = [];
  for (const section of SECTIONS) {
    const seen = await shoot(page, section);
    const name = `${look}-${section}.jpg`;
    writeFileSync(new URL(name, SEEN), seen);
    const baseline = new URL(name, BASELINES);
    if (isUpdating) writeFileSync(baseline, seen);
    if (!existsSync(baseline)) differing.push(`${name} has no baseline`);
    else {
      const apart = await compareImages(host.browser, seen, readFileSync(baseline));
      if (apart > TOLERANCE) differing.push(`${name}: ${Math.round(apart * 100)} % of it looks different`);
    }
  }
  expect(differing).toEqual([]);
}

async function open(theme = LIGHT): Promise<Page> {
  const { page } = await openPage(
    host.browser,
    host.url,
    makeServer(() => exampleItems(), 'Fairground router'),
    theme,
  );
  await page.setViewportSize(SIZE);
  await page.locator('.wiring').waitFor();
  // The bar would lie over whatever happens to be at the top.
  await page
    .locator('.bar')
    .evaluate((bar) => Object.assign((bar as HTMLElement).style, { position: 'static' }));
  return page;
}

describe('every section looks as it was last found good', () => {
  it.each(THEMES)('in $name', async (theme) => compare(await open(theme), theme.name), 120_000);

  it('on paper', async () => {
    const page = await open();
    await page.locator('[data-item="loop:panel.I1"] summary').click();
    await page.emulateMedia({ media: 'print' });
    await page.locator('[data-item="loop:panel.I1"] summary').click();
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    await compare(page, 'print');
  }, 120_000);
});

it('a difference is seen where there is one', async () => {
  const look = (name: string) => readFileSync(new URL(name, BASELINES));
  const between = (one: string, other: string) => compareImages(host.browser, look(one), look(other));
  expect(await between('light-timing.jpg', 'light-timing.jpg')).toBe(0);
  expect(await between('light-timing.jpg', 'high-contrast-light-timing.jpg')).toBeLessThan(0.5);
  expect(await between('light-timing.jpg', 'dark-timing.jpg')).toBeGreaterThan(0.5);
  expect(await between('light-inputs.jpg', 'print-inputs.jpg')).toBeGreaterThan(TOLERANCE);
});

it('the pictures kept are small', () => {
  const bytes = readdirSync(BASELINES).map((name) => statSync(new URL(name, BASELINES)).size);
  expect(bytes.length).toBe(SECTIONS.length * (THEMES.length + 1));
  expect(bytes.reduce((sum, size) => sum + size, 0)).toBeLessThan(MOST_BYTES);
});
