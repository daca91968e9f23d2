import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { goTo, pointAt, quickFixes, runCommand, summaryOf, typeOver, visibleText } from './page.ts';
import { BARE, type Box, drawn, goToDrawing, take } from './pictures.ts';
import { type Session, startSession, whereIs } from './session.ts';

/*
 * The picture of the extension page: the example with one mistake, its number beside the text, and the summary at the
 * side; the summary by itself; and those of the walkthrough. `npm run picture` takes them anew.
 */
const PICTURE = path.join(ROOT, 'docs/images/editor-and-summary.png');
const WALKTHROUGH = path.join(ROOT, 'client/walkthrough');
const MOST_BYTES = 240_000;

let session: Session;
beforeAll(async () => {
  session = await startSession('picture', { settings: BARE });
});
afterAll(() => session?.stop());

it('shows text, numbers, a finding and the summary', async () => {
  const window = await session.openExample();
  const { page, editor, file } = window;
  await page.setViewportSize({ width: 1360, height: 720 });
  await page.keyboard.press('Control+B'); // the side bar goes
  await runCommand(page, 'Fettle: Show wiring summary');
  const summary = summaryOf(page);
  await summary.locator('svg [data-id^="part:"]').first().waitFor();
  await page.locator('.tab', { hasText: 'gantry-router' }).first().click();
  const { line, column } = whereIs(file, 'feed:         5000 mm/min', 14);
  await typeOver(page, line, column, '5000'.length, '25000');
  await page.keyboard.press('Escape');
  await editor.locator('.squiggly-error').first().waitFor();
  await goTo(page, line + 22, 1); // the whole axis on screen, and most of the next one
  await goTo(page, line - 9, 1);
  await expect.poll(() => visibleText(editor)).toMatch(/top feed/);
  await goToDrawing(summary);
  await take(session.browser, page, PICTURE, { mostBytes: MOST_BYTES });
  expect(window.refused).toEqual([]);
  await window.context.close();
});

it('shows each step of the walkthrough', async () => {
  const { page, editor, file, context } = await session.openExample();
  const takeStep = (name: string, clip: Box) =>
    take(session.browser, page, path.join(WALKTHROUGH, `${name}.png`), { clip, mostBytes: 90_000 });
  await page.setViewportSize({ width: 1100, height: 760 });
  await page.keyboard.press('Control+B');
  const { line, column } = whereIs(file, 'feed:         5000 mm/min', 14);
  await goTo(page, line + 22, 1);
  await goTo(page, line - 9, 1);
  await expect.poll(() => visibleText(editor), { timeout: 20_000 }).toMatch(/X:.*160/);
  const x = await pointAt(editor, 'X:');
  await takeStep('numbers', { x: 0, y: x.y - 52, width: 760, height: 330 });

  await typeOver(page, line, column, '5000'.length, '25000');
  await page.keyboard.press('Escape');
  await editor.locator('.squiggly-error').first().waitFor();
  await goTo(page, line, column + 2);
  await (await quickFixes(page)).first().waitFor();
  const fault = await pointAt(editor, '25000');
  await takeStep('findings', { x: 0, y: fault.y - 60, width: 760, height: 310 });
  await page.keyboard.press('Escape');

  await runCommand(page, 'Fettle: New machine');
  const box = page.locator('.quick-input-widget:visible');
  await box.locator('input').last().fill('My machine');
  for (const step of [2, 3, 4]) {
    await page.keyboard.press('Enter');
    await box.filter({ hasText: `(${step}/5)` }).waitFor();
  }
  await box.locator('.monaco-list-row').first().waitFor();
  const asked = await box.boundingBox();
  if (asked) await takeStep('begin', asked);
  await page.keyboard.press('Escape');

  await runCommand(page, 'Fettle: Show wiring summary');
  const summary = summaryOf(page);
  await summary.locator('svg [data-id^="part:"]').first().waitFor();
  await goToDrawing(summary);
  const frame = await page.locator('iframe.webview.ready').first().boundingBox();
  if (frame) await takeStep('summary', { ...frame, height: Math.min(frame.height, 560) });
  await context.close();
});

it('shows the wiring summary by itself, for its page', async () => {
  const { page, context } = await session.openExample();
  await page.setViewportSize({ width: 1900, height: 1040 });
  await page.keyboard.press('Control+B');
  await runCommand(page, 'Fettle: Show wiring summary');
  const summary = summaryOf(page);
  await drawn(summary);
  const frame = await summary.locator('body').boundingBox();
  const clip = { x: frame?.x ?? 0, y: frame?.y ?? 0, width: frame?.width ?? 0, height: 925 };
  await take(session.browser, page, path.join(ROOT, 'docs/images/summary.png'), { clip, mostBytes: 160_000 });
  await context.close();
});
