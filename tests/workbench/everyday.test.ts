import fs from 'node:fs';
import path from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { goTo, pointAt, problems, quickFixes, summaryOf, visibleText } from './page.ts';
import { FILE, type Session, shoot, startSession, type Window, whereIs } from './session.ts';

/** What somebody does day by day, in one window: with the machine, another that uses its sheet, and the sheet. */

const WAIT = { timeout: 60_000 };
const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const OTHER = 'other.machine.yaml';
const FILES = {
  [FILE]: readExample(),
  ...Object.fromEntries(
    fs
      .readdirSync(path.join(EXAMPLE_FOLDER, 'sheets'))
      .map((name) => [`sheets/${name}`, fs.readFileSync(path.join(EXAMPLE_FOLDER, 'sheets', name), 'utf8')]),
  ),
  [OTHER]: `machine: Other
parts:
  panel: { sheet: ${SHEET} }
  drive-x: { sheet: generic/microstep-drive-50v }
wiring:
  - panel.PX -> drive-x.PUL-
axes:
  X: { travel: 640 }
`,
};

let session: Session;
let window: Window;
let page: Page;
let editor: Locator;
beforeAll(async () => {
  session = await startSession('everyday');
  window = await session.openFolder(FILES, FILE);
  ({ page, editor } = window);
});
afterAll(async () => {
  await window?.context.close();
  await session?.stop();
});

const readFile = (name: string) => fs.readFileSync(path.join(path.dirname(window.file), name), 'utf8');

/** Puts the cursor on some text of the machine, some characters into it. */
async function goToText(text: string, offset = 1): Promise<void> {
  const { line, column } = whereIs(window.file, text, offset);
  await goTo(page, line, column);
}

it('problems of files that nobody opened are listed, and lead there', async () => {
  const row = (await problems(page)).filter({ hasText: '640 has no unit' }).first();
  await row.waitFor();
  await shoot(page, 'everyday-problems');
  await row.dblclick();
  await page.locator(`.tab.active[data-resource-name="${OTHER}"]`).waitFor();
  await page.locator('#status\\.editor\\.selection', { hasText: 'Ln 8,' }).waitFor();
  await page.keyboard.press('Control+Shift+M');
});

it('a finding is cured and silenced by the keyboard alone', async () => {
  const other = page.locator(`.editor-instance .monaco-editor[data-uri$="/${OTHER}"]`);
  await goTo(page, 8, 17);
  await quickFixes(page);
  await page.keyboard.press('Enter'); // the first is the cure that is preferred
  await expect.poll(() => visibleText(other), WAIT).toMatch(/travel: 640 mm/);
  await page.keyboard.press('Control+Z');
  await expect.poll(() => visibleText(other), WAIT).toMatch(/travel: 640 \}/);

  await goTo(page, 8, 17);
  await (await quickFixes(page)).filter({ hasText: 'Silence unit/missing for this line' }).click();
  await expect.poll(() => visibleText(other), WAIT).toMatch(/640 \} +# fettle silence unit\/missing/);
  await shoot(page, 'everyday-silenced');
  await page.keyboard.press('Control+Z');

  await goTo(page, 8, 17);
  await (await quickFixes(page)).filter({ hasText: 'Silence unit/missing for this file' }).click();
  await expect.poll(() => visibleText(other), WAIT).toMatch(/^# fettle silence-file unit\/missing/);
  await page.keyboard.press('Control+Z');

  await goTo(page, 8, 17);
  await (await quickFixes(page)).filter({ hasText: 'Silence unit/missing for this project' }).click();
  const project = path.join(path.dirname(window.file), '.fettle.yaml');
  await expect.poll(() => fs.existsSync(project), WAIT).toBe(true);
  const row = (await problems(page)).filter({ hasText: '640 has no unit' });
  await row.waitFor({ state: 'detached' });
  await page.keyboard.press('Control+Shift+M');
});

it('a terminal is renamed in machines and sheet together, after a look at what will change', async () => {
  await page.locator('.tab', { hasText: FILE }).first().click();
  await goToText('panel.PX ', 7);
  await page.keyboard.press('F2');
  const box = page.locator('.rename-box input');
  await box.fill('STEP-X');
  await page.keyboard.press('Control+Enter');
  const preview = page.locator('.bulk-edit-panel');
  await preview.waitFor();
  const rows = preview.locator('.monaco-list-row');
  await rows
    .filter({ hasText: path.basename(SHEET) })
    .first()
    .waitFor();
  await rows.filter({ hasText: OTHER }).first().waitFor();
  await shoot(page, 'everyday-rename');
  await preview.locator('.monaco-button', { hasText: 'Apply' }).click();
  await expect.poll(() => readFile(SHEET), WAIT).toContain('STEP-X');
  await expect.poll(() => readFile(OTHER), WAIT).toContain('panel.STEP-X -> drive-x.PUL-');
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/panel\.STEP-X/);
  await page.keyboard.press('Control+S');
  await expect.poll(() => readFile(FILE), WAIT).toContain('panel.STEP-X');
});

it('a click on headline figures opens the summary there', async () => {
  await goToText('axes:', 0);
  const lens = editor.locator('.codelens-decoration a', { hasText: /160 \/mm/ }).first();
  await lens.click();
  const axis = summaryOf(page).locator('tr[data-id="axis:X"]');
  await axis.waitFor();
  await shoot(page, 'everyday-lens');
});

it('a click on a number beside the text goes to what it rests on', async () => {
  await page.locator('.tab', { hasText: FILE }).first().click();
  await goToText('axes:', 0);
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/X:.*160/);
  const hint = await pointAt(editor, 'pulse rate');
  const sheet = page.locator(`.tab.active[data-resource-name="${path.basename(SHEET)}"]`);
  // Where it leads is asked for when the pointer comes, so a click may come too early.
  for (let tries = 0; tries < 8 && !(await sheet.isVisible()); tries++) {
    await page.keyboard.down('Control');
    await page.mouse.move(hint.x - 30, hint.y + 80);
    await page.mouse.move(hint.x - 2, hint.y);
    await page.mouse.move(hint.x, hint.y);
    await page.waitForTimeout(1000);
    await page.mouse.click(hint.x, hint.y);
    await page.keyboard.up('Control');
    await page.waitForTimeout(500);
  }
  await sheet.waitFor(); // the pulse rate is a fact of the panel
  await shoot(page, 'everyday-hint-gone');
});

it('the way of a signal is a call hierarchy', async () => {
  await page.locator('.tab', { hasText: FILE }).first().click();
  await goToText('drive-x.PUL-', 9);
  await page.keyboard.press('Shift+Alt+H');
  const rows = page.locator('.part.sidebar .monaco-list-row');
  await rows.filter({ hasText: 'drive-x.pulse' }).first().waitFor();
  await rows
    .filter({ hasText: /panel\.x-pulse/ })
    .first()
    .waitFor();
  await shoot(page, 'everyday-way');
});

it('the colour of a wire is picked', async () => {
  await goToText('BU', 0);
  const swatch = editor.locator('.colorpicker-color-decoration').first();
  await swatch.click();
  const picker = page.locator('.colorpicker-widget:visible').first();
  await picker.waitFor();
  await shoot(page, 'everyday-colour');
  // The brightest orange of the box, whose name is another than that of the brown it stands for.
  const box = await picker.locator('.saturation-box').boundingBox();
  if (!box) throw new Error('the picker has no box');
  await page.mouse.click(box.x + box.width - 3, box.y + 3);
  await page.keyboard.press('Enter');
  const line =
    readFile(FILE)
      .split('\n')
      .findIndex((each) => each.includes('mains.L -> mains-breaker.1')) + 1;
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+S');
  await expect.poll(() => readFile(FILE).split('\n')[line - 1], WAIT).toMatch(/mains-breaker\.1 +OG,/);
});
