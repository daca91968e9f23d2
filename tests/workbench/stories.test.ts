import fs from 'node:fs';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { readExample } from '../support/example.ts';
import {
  goTo,
  hoverAt,
  pointAt,
  problems,
  quickFixes,
  runCommand,
  summaryOf,
  typeOver,
  visibleText,
} from './page.ts';
import { type Session, shoot, startSession, type Window, whereIs } from './session.ts';

let session: Session;
let window: Window;
beforeAll(async () => {
  session = await startSession('stories');
});
afterEach(() => window.context.close());
afterAll(() => session?.stop());

const SUMMARY = 'Fettle: Show wiring summary';

/** Replaces a word of the text by typing over it. */
async function change(from: string, to: string, within = from): Promise<void> {
  const { line, column } = whereIs(window.file, within, within.indexOf(from));
  await typeOver(window.page, line, column, from.length, to);
  await window.page.keyboard.press('Escape'); // away with suggestions
}

/** The limit switch at the far end of X, as the example has it. */
const FAR_X =
  'far-x:           { sheet: generic/roller-switch,                at: gantry, set: { contact: normally-closed';

/** Waits for a problem with these words and gives its whole line as it is read out. */
async function problem(words: RegExp): Promise<string> {
  const row = (await problems(window.page)).filter({ hasText: words }).first();
  await row.waitFor();
  return (await row.getAttribute('aria-label')) ?? '';
}

const squiggles = (kind: 'error' | 'warning') => window.editor.locator(`.squiggly-${kind}`);

async function saved(): Promise<string> {
  await window.page.keyboard.press('Control+S');
  await window.page.locator('.tab.active.dirty').waitFor({ state: 'detached' });
  return fs.readFileSync(window.file, 'utf8');
}

describe('what a person must be able to do', () => {
  it('1: open an example and see numbers beside each axis, no false alarms, and the wiring summary', async () => {
    window = await session.openExample();
    const { page, editor, file } = window;
    const { line } = whereIs(file, 'axes:');
    await goTo(page, line + 18, 1);
    const started = performance.now();
    await expect.poll(() => visibleText(editor), { timeout: 20_000 }).toMatch(/X:.*160/);
    console.log(
      `window ${Math.round(window.opened)} ms, numbers ${Math.round(performance.now() - started)} ms after scrolling to the axes`,
    );
    const text = await visibleText(editor);
    expect(text).toMatch(/Y:.*127\.3/);
    expect(text).toMatch(/Z:.*400/);
    expect(text).toMatch(/X:.*mm\/min/);
    await shoot(page, 'story-1-numbers');

    // Hints are not listed: the view is empty, or holds the caution about the emergency stop.
    const rows = await problems(page);
    const said = await rows.evaluateAll((all) => all.map((row) => row.getAttribute('aria-label') ?? ''));
    expect(
      said.filter((label) => /^(?:Error|Warning)/.test(label) && !/emergency.stop/i.test(label)),
    ).toEqual([]);
    expect(await page.locator('.notification-toast').count()).toBe(0);
    await page.keyboard.press('Control+Shift+M');

    await page.locator('.editor-actions [aria-label*="Show wiring summary"]').first().click();
    const summary = summaryOf(page);
    await summary.locator('tr[data-id="axis:X"]').first().waitFor();
    await summary.locator('h1', { hasText: 'Fairground router' }).waitFor();
    await summary.locator('svg [data-id^="part:"]').first().waitFor();
    expect(await summary.locator('body').textContent()).toMatch(/160/);
    await shoot(page, 'story-1-summary');
    expect(window.refused).toEqual([]);
  });

  it('2: change microsteps from 8 to 16, see the numbers follow, and update the setting with one action', async () => {
    window = await session.openExample();
    const { page, editor } = window;
    await runCommand(page, SUMMARY);
    const axis = summaryOf(page).locator('tr[data-id="axis:X"]');
    await axis.filter({ hasText: '160' }).waitFor();
    const before = await axis.textContent();
    await page.locator('.tab', { hasText: 'gantry-router' }).first().click();

    await change('8', '16', 'microsteps: 8, phase-current: 3.2 A');
    expect(await problem(/320/)).toMatch(/160.*320|320.*160/s);
    await axis.filter({ hasText: '320' }).waitFor();
    expect(await axis.textContent()).not.toBe(before);
    await shoot(page, 'story-2-flagged');

    const place = whereIs(window.file, 'c1-1: 160.000', 7);
    await goTo(page, place.line, place.column);
    await expect.poll(() => squiggles('warning').count()).toBeGreaterThan(0);
    const fixes = await quickFixes(page);
    await shoot(page, 'story-2-fix');
    await fixes.filter({ hasText: /320/ }).first().click();
    await expect.poll(() => visibleText(editor)).toMatch(/c1-1: 320(\.000)? \/mm/);
    const text = await saved();
    expect(text).toMatch(/c1-1: 320(?:\.000)? \/mm, .*# scale/);
    const others = (all: string) => all.split('\n').filter((line) => !/c1-1|drive-x: {2}\{/.test(line));
    expect(others(text)).toEqual(others(readExample()));
  });

  it('3: be asked for the unit of 500, and offered 500 ns for 500 ms', async () => {
    window = await session.openExample();
    const { page, editor } = window;
    await change('8000 ns', '500', 'c8-1: 8000 ns');
    const asked = await problem(/500/);
    expect(asked).toMatch(/^Error.*unit/i);
    await expect.poll(() => squiggles('error').count()).toBeGreaterThan(0);
    await shoot(page, 'story-3-which-unit');
    const { line, column } = whereIs(window.file, 'c8-1: 8000', 7);
    await goTo(page, line, column);
    await (await quickFixes(page))
      .filter({ hasText: /\bns\b/ })
      .first()
      .click();
    await expect.poll(() => visibleText(editor)).toMatch(/c8-1: 500 ns/);
    await (await problems(page)).filter({ hasText: /unit/ }).first().waitFor({ state: 'detached' });

    await typeOver(page, line, column + 3, 2, 'ms'); // 500 ns -> 500 ms
    await page.keyboard.press('Escape');
    expect(await problem(/500 ms/)).toMatch(/500 ns/);
    await goTo(page, line, column);
    const fixes = await quickFixes(page);
    await shoot(page, 'story-3-implausible');
    await fixes.filter({ hasText: '500 ns' }).first().click();
    const lineOf = (text: string) => text.split('\n').find((content) => content.includes('c8-1'));
    expect(lineOf(await saved())).toBe(lineOf(readExample())?.replace('8000 ns', '500 ns'));
  });

  it('4: be told that an NPN sensor can never turn its input on, with the solved voltages, and take the cure', async () => {
    window = await session.openExample();
    const { page } = window;
    await change(
      'inductive-pnp-nc',
      'inductive-npn-nc',
      'home-x:          { sheet: generic/inductive-pnp-nc',
    );
    const said = await problem(/can never turn on/);
    expect(said).toMatch(/^Error/);
    expect(said).toMatch(/at rest 0\.0 V, operated 0\.0 V/);
    expect(said).toMatch(new RegExp(`line ${whereIs(window.file, 'home-x.BK -> panel.I3').line}\\b`));
    const { line, column } = whereIs(window.file, 'home-x.BK -> panel.I3', 18);
    await goTo(page, line, column);
    await shoot(page, 'story-4-never-on');
    await (await quickFixes(page))
      .filter({ hasText: /inductive-pnp-nc/ })
      .first()
      .click();
    await (await problems(page))
      .filter({ hasText: /can never/ })
      .first()
      .waitFor({ state: 'detached' });
    expect(await saved()).toBe(readExample());
  });

  it('5: be stopped from feeding a 30 V panel from a 48 V supply', async () => {
    window = await session.openExample();
    await change('generic/supply-24v', 'generic/supply-48v', 'logic-psu:       { sheet: generic/supply-24v');
    const said = await problem(/20\.\.30 V/);
    expect(said).toMatch(/^Error/);
    expect(said).toMatch(/48 V/);
    await (await problems(window.page))
      .filter({ hasText: /20\.\.30 V/ })
      .first()
      .click(); // to its place
    await expect.poll(() => squiggles('error').count()).toBeGreaterThan(0);
    await shoot(window.page, 'story-5-supply');
  });

  it('6: be told what a broken wire does to a normally open switch, and change contact and sense with one action', async () => {
    window = await session.openExample();
    const { page } = window;
    await change('normally-closed', 'normally-open', FAR_X);
    await change('on-when-open', 'on-when-closed', 'c10-2: on-when-open');
    expect(await problem(/breaks/)).toMatch(/^Warning.*switch is dead/s);
    const { line, column } = whereIs(window.file, 'far-x.C2 -> panel.I2', 17);
    await goTo(page, line, column);
    await shoot(page, 'story-6-broken-wire');
    await (await quickFixes(page))
      .filter({ hasText: /normally-closed.*on-when-open/ })
      .first()
      .click();
    await (await problems(page))
      .filter({ hasText: /breaks/ })
      .first()
      .waitFor({ state: 'detached' });
    expect(await saved()).toBe(readExample());
  });

  it('7: hover over a computed number and read its working', async () => {
    window = await session.openExample();
    const { page, editor, file } = window;
    await goTo(page, whereIs(file, 'axes:').line + 18, 1);
    await expect.poll(() => visibleText(editor), { timeout: 20_000 }).toMatch(/X:.*160/);
    const working = await hoverAt(page, () => pointAt(editor, 'X:'), /160/);
    expect(working).toMatch(/1600 × 1 \/ 10 mm = 160 \/mm/); // 200 steps × 8 microsteps, no gearing, the lead of the screw
    expect(working).toMatch(/source/i);
    expect(working).toMatch(/c1-1/); // what depends on it
    await shoot(page, 'story-7-axis');
    await page.keyboard.press('Escape');

    const { line, column } = whereIs(file, 'c1-1: 160.000');
    await goTo(page, line, column);
    const wanted = await hoverAt(page, () => pointAt(editor, '160.000'), /160/);
    expect(wanted).toMatch(/pulses per length/i);
    expect(wanted).toMatch(/source/i);
    await shoot(page, 'story-7-setting');
  });
});

describe('the wiring summary beside the text', () => {
  it('follows typing without losing its place, and a click selects the text', async () => {
    window = await session.openExample();
    const { page } = window;
    await runCommand(page, SUMMARY);
    const summary = summaryOf(page);
    const axis = summary.locator('tr[data-id="axis:X"]');
    await axis.waitFor();
    const kept = await axis.evaluate((element) => {
      element.setAttribute('data-kept', 'yes'); // an element made anew would have lost it
      document.documentElement.scrollTop = 120;
      return document.documentElement.scrollTop;
    });
    await page.locator('.tab', { hasText: 'gantry-router' }).first().click();
    await change('10 mm', '5 mm', 'lead: 10 mm');
    await axis.filter({ hasText: '320' }).waitFor();
    expect(await axis.getAttribute('data-kept')).toBe('yes');
    expect(await axis.evaluate(() => document.documentElement.scrollTop)).toBe(kept);

    await axis.locator('th').click();
    const { line } = whereIs(window.file, '  X:   ');
    await page.locator('#status\\.editor\\.selection', { hasText: `Ln ${line},` }).waitFor();
    expect(await page.locator('#status\\.editor\\.selection').textContent()).toMatch(/selected/);
    await shoot(page, 'summary-selects');
  });

  it('applies a cure by a click on it in the page', async () => {
    window = await session.openExample();
    const { page } = window;
    await runCommand(page, SUMMARY);
    const summary = summaryOf(page);
    await summary.locator('tr[data-id="axis:X"]').waitFor();
    await page.locator('.tab', { hasText: 'gantry-router' }).first().click();
    await change('160.000', '150.000', 'c1-1: 160.000 /mm');
    const fix = summary.locator('.fixes button', { hasText: '160' }).first();
    await fix.click();
    await summary.locator('.fixes button', { hasText: '160' }).first().waitFor({ state: 'detached' });
  });

  it('keeps its last good picture with a notice while the text is broken', async () => {
    window = await session.openExample();
    const { page } = window;
    await runCommand(page, SUMMARY);
    const summary = summaryOf(page);
    await summary.locator('tr[data-id="axis:X"]').waitFor();
    await page.locator('.tab', { hasText: 'gantry-router' }).first().click();
    const { line } = whereIs(window.file, 'axes:');
    await goTo(page, line, 6);
    await page.keyboard.type(' {');
    await summary.locator('.notice', { hasText: /errors/ }).waitFor();
    expect(await summary.locator('tr[data-id="axis:X"]').count()).toBe(1);
    await shoot(page, 'summary-broken');
  });

  it.each([
    ['light', 'Light Modern'],
    ['dark', 'Dark Modern'],
    ['high-contrast', 'Default High Contrast'],
  ])('is legible in a %s theme', async (name, theme) => {
    session.host.setSettings({ 'workbench.colorTheme': theme });
    window = await session.openExample();
    const { page } = window;
    await runCommand(page, SUMMARY);
    const summary = summaryOf(page);
    await summary.locator('svg [data-id^="part:"]').first().waitFor();
    const contrast = await summary.locator('tr[data-id="axis:X"]').evaluate(leastContrast);
    expect(contrast).toBeGreaterThan(4.5); // WCAG 2.2, success criterion 1.4.3
    await page.locator('.tab', { hasText: 'gantry-router' }).first().click();
    await goTo(page, whereIs(window.file, 'axes:').line + 18, 1);
    await expect.poll(() => visibleText(window.editor), { timeout: 20_000 }).toMatch(/X:.*160/);
    await shoot(page, `theme-${name}`);
  });
});

/** The least contrast of any text in an element against what is behind it (WCAG 2.2, relative luminance). */
function leastContrast(root: Element): number {
  const parse = (colour: string) => (colour.match(/[\d.]+/g) ?? []).map(Number);
  const luminance = (colour: readonly number[]) => {
    const [r = 0, g = 0, b = 0] = colour.map((channel) => {
      const part = channel / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const behind = (element: Element | null): number[] => {
    for (let at = element; at; at = at.parentElement) {
      const colour = parse(getComputedStyle(at).backgroundColor);
      if ((colour[3] ?? 1) > 0.99) return colour;
    }
    return [255, 255, 255];
  };
  const texts = [root, ...root.querySelectorAll('*')].filter((element) =>
    [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim()),
  );
  const ratios = texts.map((element) => {
    const [one, two] = [luminance(parse(getComputedStyle(element).color)), luminance(behind(element))];
    return (Math.max(one, two) + 0.05) / (Math.min(one, two) + 0.05);
  });
  return Math.min(...ratios);
}
