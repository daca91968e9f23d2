import { describe, expect, it } from 'vitest';
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
