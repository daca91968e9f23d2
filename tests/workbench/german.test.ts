import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { readManifestTexts } from '../support/words/manifest.ts';
import { editorOf, goTo, problems, quickFixes, runCommand, visibleText } from './page.ts';
import { type Session, shoot, startSession, type Window } from './session.ts';

/*
 * The extension in a workbench whose language is German. Its own words stay English, so what is
 * German is the extension's: its manifest, its walkthrough, its client and its server.
 */

const WAIT = { timeout: 60_000 };
const TEXTS = readManifestTexts(ROOT, 'de');

let session: Session;
let window: Window;
let page: Page;
beforeAll(async () => {
  session = await startSession('german', { language: 'de' });
  window = await session.openFolder({ 'empty.machine.yaml': '' }, 'empty.machine.yaml');
  page = window.page;
});
afterAll(async () => {
  await window?.context.close();
  await session?.stop();
});

/** The quick input with this title in front. */
async function ask(title: string): Promise<Locator> {
  const box = page.locator('.quick-input-widget:visible');
  await box.filter({ hasText: title }).waitFor();
  return box;
}

it('an empty file says in German how it can be begun, and names the commands as they are called', async () => {
  const shown = () =>
    window.editor
      .locator('.view-lines span')
      .evaluateAll((spans) => spans.map((span) => getComputedStyle(span, '::after').content).join(''));
  await expect.poll(shown, WAIT).toContain(`Fettle: ${TEXTS['command.newMachine']}`);
  expect(await page.locator('#status\\.editor\\.mode').textContent()).toContain(TEXTS['language.machine']);
});

it('asks five questions in German, and the file that follows says the same as in English', async () => {
  await runCommand(page, `Fettle: ${TEXTS['command.newMachine']}`);
  const box = await ask('Neue Maschine (1/5)');
  await box.getByText('Wie heißt die Maschine?').waitFor();
  await page.keyboard.press('Enter');
  await box.getByText('Einen Namen eingeben.').waitFor();
  await box.locator('input').last().fill('Versuch');
  const questions = [/Versorgungsnetz/, /Welche Achsen/, /bewegt die Linearachsen/, /eine Spindel/];
  for (const [step, question] of questions.entries()) {
    await page.keyboard.press('Enter');
    await ask(`Neue Maschine (${step + 2}/5)`);
    await expect.poll(() => box.locator('input').last().getAttribute('placeholder'), WAIT).toMatch(question);
    await shoot(page, `german-machine-${step + 2}`);
  }
  await box.locator('.monaco-list-row', { hasText: 'Eine Spindel an einem Frequenzumrichter' }).click();
  const editor = editorOf(page, 'versuch.machine.yaml');
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/machine: Versuch/);
  await page.keyboard.press('Control+End');
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/spindle:/);
});

it('findings, cures and the status are in German', async () => {
  const { context, page: other } = await session.openFolder(
    { 'unit.machine.yaml': 'machine: Unit\naxes:\n  X: { travel: 640 }\n' },
    'unit.machine.yaml',
  );
  const rows = await problems(other);
  await rows
    .filter({ hasText: /640 hat keine Einheit/ })
    .first()
    .waitFor();
  await other.keyboard.press('Control+Shift+M');
  await goTo(other, 3, 18);
  const fixes = await quickFixes(other);
  await fixes
    .filter({ hasText: /640 mm/ })
    .first()
    .waitFor();
  expect((await fixes.allTextContents()).join('\n')).not.toMatch(/\b(?:the|Write|Read)\b/);
  await other.keyboard.press('Escape');
  await other.locator('#status\\.languageStatus').click();
  const card = other.locator('.monaco-hover:not(.hidden) .hover-language-status');
  await card
    .filter({ hasText: /1 Achsen/ })
    .first()
    .waitFor();
  await card.filter({ hasText: 'Sprachserver läuft' }).first().waitFor();
  await card.getByText('Neu starten').waitFor();
  await shoot(other, 'german-status');
  await context.close();
});

it('the walkthrough is the German one, with its pictures', async () => {
  await runCommand(page, 'Welcome: Open Walkthrough...');
  const box = page.locator('.quick-input-widget:visible');
  await box.locator('.monaco-list-row', { hasText: TEXTS['walkthrough.title'] ?? '' }).click();
  const steps = page.locator('.getting-started-step');
  await expect.poll(() => steps.count(), WAIT).toBe(4);
  const media = page.frameLocator('.getting-started-media iframe').frameLocator('iframe#active-frame');
  for (const [step, shows] of [
    'fünf Fragen',
    'Eine Achse',
    'unterstrichener',
    'Verdrahtungsplan',
  ].entries()) {
    await steps.nth(step).click();
    const picture = media.locator(`img[alt*="${shows}"]`);
    const width = () => picture.evaluate((image) => (image as HTMLImageElement).naturalWidth);
    await expect.poll(width, WAIT).toBeGreaterThan(100);
  }
  await shoot(page, 'german-walkthrough');
});

it('settings are described in German', async () => {
  await runCommand(page, 'Preferences: Open Settings (UI)');
  await page.locator('.settings-editor .suggest-input-container').click();
  await page.keyboard.type('@ext:fettle.fettle inlayHints.scale');
  await page
    .locator('.settings-editor', { hasText: TEXTS['setting.inlayHints.scale'] ?? '?' })
    .first()
    .waitFor();
  await shoot(page, 'german-settings');
});
