import fs from 'node:fs';
import path from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { editorOf, problems, runCommand, summaryOf, visibleText } from './page.ts';
import { type Session, shoot, startSession, type Window } from './session.ts';

/** What somebody meets who has just installed the extension, in one window. */

const WAIT = { timeout: 60_000 };

let session: Session;
let window: Window;
let page: Page;
beforeAll(async () => {
  session = await startSession('first-minutes');
  window = await session.openFolder({ 'empty.machine.yaml': '' }, 'empty.machine.yaml');
  page = window.page;
});
afterAll(async () => {
  await window?.context.close();
  await session?.stop();
});

/** The quick input with this title in front. */
async function ask(title: string | RegExp): Promise<Locator> {
  const box = page.locator('.quick-input-widget:visible');
  await box.filter({ hasText: title }).waitFor();
  return box;
}

/** Picks rows of the question that is asked, and goes on. */
async function choose(title: string, question: RegExp, row: string | RegExp): Promise<void> {
  const box = await ask(title);
  await box.locator('input[placeholder]').first().waitFor();
  await expect.poll(() => box.locator('input').last().getAttribute('placeholder'), WAIT).toMatch(question);
  await box.locator('.monaco-list-row', { hasText: row }).first().click();
}

/** Errors and warnings among all problems that are shown; the caution about the emergency stop is none. */
async function faultsOf(): Promise<string[]> {
  const rows = await problems(page);
  await rows
    .first()
    .waitFor({ timeout: 3000 })
    .catch(() => undefined);
  const said = await rows.evaluateAll((all) => all.map((row) => row.getAttribute('aria-label') ?? ''));
  await page.keyboard.press('Control+Shift+M');
  return said.filter((label) => /^(?:Error|Warning)/.test(label) && !/emergency.stop/i.test(label));
}

it('an empty file says how it can be begun, and offers a whole machine that has no errors', async () => {
  const { editor } = window;
  const shown = () =>
    editor
      .locator('.view-lines span')
      .evaluateAll((spans) => spans.map((span) => getComputedStyle(span, '::after').content).join(''));
  await expect.poll(shown, WAIT).toMatch(/Ask for suggestions to begin/);
  await shoot(page, 'first-empty');
  await page.keyboard.press('Control+Space');
  const rows = page.locator('.suggest-widget.visible .monaco-list-row');
  await rows.first().waitFor();
  await shoot(page, 'first-suggestions');
  await rows.filter({ hasText: 'new machine' }).first().waitFor();
  await page.keyboard.press('Enter'); // it is the first
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/machine: My machine/);
  await expect.poll(shown, WAIT).not.toMatch(/Ask for suggestions/);
  await page.keyboard.press('Escape');
  await shoot(page, 'first-snippet');
  expect(await faultsOf()).toEqual([]);
});

it('New machine asks five questions, can go back, and ends in a machine without errors', async () => {
  await runCommand(page, 'Fettle: New machine');
  const box = await ask('New machine (1/5)');
  await shoot(page, 'first-machine-1');
  await page.keyboard.press('Enter');
  await box.getByText('Type a name.').waitFor();
  await box.locator('input').last().fill('Test mill');
  await page.keyboard.press('Enter');
  await ask('New machine (2/5)');
  await box.getByRole('button', { name: 'Back' }).click();
  await ask('New machine (1/5)');
  expect(await box.locator('input').last().inputValue()).toBe('Test mill');
  await page.keyboard.press('Enter');
  await ask('New machine (2/5)');
  await shoot(page, 'first-machine-2');
  await choose('New machine', /supply network/, /230 V/);
  await ask('New machine (3/5)');
  await shoot(page, 'first-machine-3');
  await page.keyboard.press('Enter');
  await ask('New machine (4/5)');
  await shoot(page, 'first-machine-4');
  await choose('New machine', /linear axes/, /screw/i);
  await ask('New machine (5/5)');
  await shoot(page, 'first-machine-5');
  await choose('New machine', /spindle/, /converter$/);
  const editor = editorOf(page, 'test-mill.machine.yaml');
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/machine: Test mill/);
  await shoot(page, 'first-machine-made');
  expect(await faultsOf()).toEqual([]);
});

it('New part sheet asks four questions and ends in a sheet without errors', async () => {
  await runCommand(page, 'Fettle: New part sheet');
  const answer = async (step: number, text: string) => {
    const box = await ask(`New part sheet (${step}/4)`);
    await box.locator('input').last().fill(text);
    await shoot(page, `first-sheet-${step}`);
    await page.keyboard.press('Enter');
  };
  await answer(1, 'Tool length probe');
  await ask('New part sheet (2/4)');
  await choose('New part sheet', /sort of part/, /^switch/);
  await answer(3, 'Invented datasheet, rev. B, page 3');
  await answer(4, 'C1, C2');
  const editor = editorOf(page, 'tool-length-probe.part.yaml');
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/part: Tool length probe/);
  await shoot(page, 'first-sheet-made');
  expect(await faultsOf()).toEqual([]);
});

it('a sample machine opens as a copy, with its numbers', async () => {
  await runCommand(page, 'Fettle: Open a sample machine');
  const box = await ask('Open a sample machine');
  await shoot(page, 'first-samples');
  await box.locator('.monaco-list-row', { hasText: 'lens-mill' }).click();
  const editor = editorOf(page, 'lens-mill.machine.yaml');
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/machine: /);
  await page.keyboard.press('Control+End');
  await page.keyboard.type('\n# mine\n');
  await page.keyboard.press('Control+S');
  await page.locator('.tab.active.dirty').waitFor({ state: 'detached' });
  expect(await page.locator('.notification-toast').count()).toBe(0);
  expect(await faultsOf()).toEqual([]);
});

it('the status says what was checked, and starts the server anew', async () => {
  await page.locator('.tab', { hasText: 'lens-mill' }).first().click();
  const entry = page.locator('#status\\.languageStatus');
  const card = page.locator('.monaco-hover:not(.hidden) .hover-language-status');
  await entry.click();
  await card
    .filter({ hasText: /\d+ parts, \d+ links, \d+ axes, \d+ numbers/ })
    .first()
    .waitFor();
  await shoot(page, 'first-status');
  await card.getByText('Restart').click();
  await page.keyboard.press('Escape');
  await entry.click();
  await card.filter({ hasText: 'Language server runs' }).first().waitFor();
  await card
    .filter({ hasText: /\d+ parts/ })
    .first()
    .waitFor();
  await page.keyboard.press('Escape');
  // What Node compiled of the server that ended is kept for the next, in the folder that the editor gives the extension.
  const compiled = path.join(session.host.dir, 'user/User/globalStorage/fettle.fettle/compiled');
  expect(fs.readdirSync(compiled, { recursive: true }).length).toBeGreaterThan(1);
});

it('the walkthrough opens step by step, its pictures load and its buttons work', async () => {
  const open = async () => {
    await runCommand(page, 'Welcome: Open Walkthrough...');
    const box = await ask(/./);
    await box.locator('.monaco-list-row', { hasText: 'Begin with Fettle' }).first().click();
  };
  await open();
  const steps = page.locator('.getting-started-step');
  await expect.poll(() => steps.count(), WAIT).toBe(4);
  const media = page.frameLocator('.getting-started-media iframe').frameLocator('iframe#active-frame');
  for (const [step, shows] of ['five questions', 'An axis', 'underlined', 'wiring drawing'].entries()) {
    await steps.nth(step).click();
    const picture = media.locator(`img[alt*="${shows}"]`);
    const width = () => picture.evaluate((image) => (image as HTMLImageElement).naturalWidth);
    await expect.poll(width, WAIT).toBeGreaterThan(100);
    await shoot(page, `first-walkthrough-${step}`);
  }
  const press = async (step: number, name: string) => {
    await open();
    await steps.nth(step).click();
    await steps.nth(step).getByRole('button', { name, exact: true }).first().click();
  };
  await press(0, 'New machine');
  await ask('New machine (1/5)');
  await page.keyboard.press('Escape');
  await press(0, 'Open a sample machine');
  await (await ask('Open a sample machine')).locator('.monaco-list-row', { hasText: 'Wing core' }).click();
  await expect.poll(() => visibleText(editorOf(page, 'foam-cutter.machine.yaml')), WAIT).toMatch(/machine: /);
  await press(2, 'Show all problems');
  await page.locator('.markers-panel').waitFor();
  await press(3, 'Show wiring summary');
  await summaryOf(page).locator('h1').first().waitFor();
  await shoot(page, 'first-walkthrough-summary');
});
