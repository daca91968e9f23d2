import { describe, expect, it } from 'vitest';
import { runCli } from '../support/cli.ts';
import { EXAMPLE_FILE } from '../support/example.ts';
import { ROOT } from '../support/lsp-client.ts';
import { violations } from './accessible.ts';
import { exampleItems } from './example.ts';
import { makeServer } from './made-up-server.ts';
import { hostPage, LIGHT, openPage, THEMES } from './open-page.ts';

const host = hostPage();

describe.each(THEMES)('in $name', (theme) => {
  it('the checker finds nothing, with a signal and a finding shown', async () => {
    const items = exampleItems(['sheet: generic/supply-24v,', 'sheet: generic/supply-48v,']);
    const { page } = await openPage(
      host.browser,
      host.url,
      makeServer(() => items),
      theme,
    );
    await page.locator('.wiring').waitFor();
    await page.locator('details.folded').first().locator('summary').click();
    expect(await page.locator('.finding').count()).toBeGreaterThan(1);
    // What does not depend on colours is looked at once, since a page of this size takes the checker half a minute.
    expect(await violations(page, theme === LIGHT ? undefined : ['color-contrast'])).toEqual([]);
  });
});

it.each(['light', 'dark'] as const)(
  'the inks of a report stand out from its ground in %s',
  async (colorScheme) => {
    const { out } = await runCli(['report', '--section', 'headline', EXAMPLE_FILE], ROOT);
    const page = await host.browser.newPage({ colorScheme });
    await page.setContent(out);
    expect(await violations(page, ['color-contrast'])).toEqual([]);
    const inks = await page.evaluate(() => {
      const probe = document.body.appendChild(document.createElement('canvas')).getContext('2d');
      const lightness = (colour: string): number => {
        if (!probe) return Number.NaN;
        probe.fillStyle = colour;
        probe.fillRect(0, 0, 1, 1);
        const [red = 0, green = 0, blue = 0] = [...probe.getImageData(0, 0, 1, 1).data].map((part) =>
          part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4,
        );
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
      };
      const style = getComputedStyle(document.documentElement);
      const ground = lightness(style.getPropertyValue('--ground'));
      return ['--given', '--asked', '--wanted', '--text'].map((name) => {
        const ink = lightness(style.getPropertyValue(name));
        return (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
      });
    });
    // WCAG 2.2, success criterion 1.4.3: letters of this size.
    for (const contrast of inks) expect(contrast).toBeGreaterThan(4.5);
  },
);

it('says the same in words that need more room, and at twice the size, without cutting anything off', async () => {
  const long = 'Hochgeschwindigkeitsfrässpindelantriebsumrichter';
  const items = exampleItems(
    ['drive-x', `${long}-x`],
    ['Fairground router', `${long}-Rundtischfräsmaschine`],
  );
  const { page } = await openPage(
    host.browser,
    host.url,
    makeServer(() => items),
  );
  await page.locator('.wiring').waitFor();
  for (const width of [1100, 550]) {
    await page.setViewportSize({ width, height: 800 }); // 200 % zoom halves the width in CSS pixels
    const [wide, room] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
    expect(wide).toBeLessThanOrEqual(room ?? 0);
  }
  expect(await page.locator('h1').textContent()).toContain(long);
});

it('goes by keyboard into a table, along its rows, to a working, to a signal and its states', async () => {
  const { page, heard } = await openPage(
    host.browser,
    host.url,
    makeServer(() => exampleItems()),
  );
  await page.locator('.wiring').waitFor();
  await page.locator('tr[data-id="axis:X"]').focus();
  await page.keyboard.press('ArrowDown');
  expect(await page.evaluate(() => document.activeElement?.getAttribute('data-id'))).toBe('axis:Y');
  await page.locator('.card', { hasText: 'Torque margin' }).waitFor();
  await page.keyboard.press('Escape');
  expect(await page.locator('.card').isVisible()).toBe(false);
  await page.keyboard.press('Enter');
  expect((await heard()).at(-1)).toMatchObject({ kind: 'go', id: 'axis:Y' });

  const signal = page.locator('[data-item="loop:panel.I1"]');
  await signal.locator('summary').focus();
  await page.keyboard.press('Enter');
  const operated = signal.getByRole('button', { name: 'Operated' });
  await operated.focus();
  await page.keyboard.press('Enter');
  expect(await operated.getAttribute('aria-pressed')).toBe('true');
  const seen = (state: string) =>
    signal.locator(`.state-${state}`).evaluate((group) => getComputedStyle(group).opacity);
  expect([await seen('rest'), await seen('operated'), await seen('broken')]).toEqual(['0', '1', '0']);
});

it('moves nothing for people who want no motion', async () => {
  const { page } = await openPage(
    host.browser,
    host.url,
    makeServer(() => exampleItems()),
  );
  await page.locator('.wiring').waitFor();
  const moving = await page.evaluate(
    () => document.getAnimations().filter(({ playState }) => playState === 'running').length,
  );
  expect(moving).toBe(0);
});
