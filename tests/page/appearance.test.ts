import { mkdirSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { makeServer } from './made-up-server.ts';
import { DARK, HIGH_CONTRAST, hostPage, LIGHT, openPage } from './open-page.ts';
import { sampleItems } from './sample-items.ts';

// Pictures of the page for people to look at; the checks here are those that a machine can make.
const PICTURES = new URL('../../.cache/tests/page/', import.meta.url).pathname;

const host = hostPage();
beforeAll(() => {
  mkdirSync(PICTURES, { recursive: true });
});

describe.each([LIGHT, DARK, HIGH_CONTRAST])('in $name', (theme) => {
  it('shows the summary, on wide and narrow pages, with nothing cut off', async () => {
    const { page, complaints } = await openPage(
      host.browser,
      host.url,
      makeServer(() => sampleItems()),
      theme,
    );
    await page.locator('.wiring').waitFor();
    await page.screenshot({ path: `${PICTURES}${theme.name}.png`, fullPage: true });
    await page.setViewportSize({ width: 420, height: 900 });
    await page.screenshot({ path: `${PICTURES}${theme.name}-narrow.png` });
    const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(wide).toBeLessThanOrEqual(room ?? 0);
    expect(complaints).toEqual([]);
  });

  it('draws wires that can be told from the ground', async () => {
    const { page } = await openPage(
      host.browser,
      host.url,
      makeServer(() => sampleItems()),
      theme,
    );
    await page.locator('.wiring').waitFor();
    const [ground, casing] = await page.evaluate(() => {
      const inks = (element: Element | null, name: 'stroke' | 'color') =>
        element ? getComputedStyle(element)[name] : '';
      // The casing is what a wire in the colour of the ground still shows by.
      return [
        getComputedStyle(document.body).backgroundColor,
        inks(document.querySelector('.casing'), 'stroke'),
      ];
    });
    expect(contrast(lightness(ground ?? ''), lightness(casing ?? ''))).toBeGreaterThan(3); // WCAG 2.2, 1.4.11
  });
});

it('prints the whole drawing in black on white without tools', async () => {
  const { page } = await openPage(
    host.browser,
    host.url,
    makeServer(() => sampleItems()),
    DARK,
  );
  await page.locator('.wiring').waitFor();
  await page.emulateMedia({ media: 'print' });
  expect(await page.locator('.tools').isVisible()).toBe(false);
  expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe(
    'rgb(255, 255, 255)',
  );
  expect(await page.evaluate(() => getComputedStyle(document.body).color)).toBe('rgb(0, 0, 0)');
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  expect(await page.locator('.wiring').getAttribute('viewBox')).toMatch(/^0 0 \d+ \d+$/);
  await page.screenshot({ path: `${PICTURES}print.png`, fullPage: true });
});

/** Relative luminance of a computed colour, `rgb(r, g, b)` or `color(srgb r g b)` (WCAG 2.2). */
function lightness(colour: string): number {
  const most = colour.startsWith('rgb') ? 255 : 1;
  const [r = 0, g = 0, b = 0] = (colour.match(/\d*\.?\d+(?:e-?\d+)?/g) ?? []).map((text) => {
    const part = Number(text) / most;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: number, two: number): number {
  return (Math.max(one, two) + 0.05) / (Math.min(one, two) + 0.05);
}
