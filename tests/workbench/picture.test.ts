import fs from 'node:fs';
import path from 'node:path';
import type { FrameLocator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { goTo, pointAt, quickFixes, runCommand, summaryOf, typeOver, visibleText } from './page.ts';
import { type Session, startSession, whereIs } from './session.ts';

/*
 * The picture of the extension page: the example with one mistake, its number beside the text, and the summary at the
 * side; and those of the walkthrough. `npm run picture` takes them anew.
 */
const PICTURE = path.join(ROOT, 'docs/images/editor-and-summary.png');
const WALKTHROUGH = path.join(ROOT, 'client/walkthrough');
const MOST_BYTES = 240_000;

let session: Session;
beforeAll(async () => {
  session = await startSession('picture', {
    settings: {
      'editor.minimap.enabled': false,
      'workbench.activityBar.location': 'hidden',
      'breadcrumbs.enabled': false,
    },
  });
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
  await summary.getByText('Wiring drawing', { exact: true }).first().click();
  await drawn(summary);
  await take(page, PICTURE, MOST_BYTES);
  expect(window.refused).toEqual([]);
  await window.context.close();
});

/** Takes a picture and looks at the one that ships; it takes that one's place when it was asked for. */
async function take(page: Page, file: string, mostBytes: number, clip?: Box): Promise<void> {
  const shots = path.join(ROOT, '.cache/screenshots');
  fs.mkdirSync(shots, { recursive: true });
  const options = clip ? { clip } : {};
  const bytes = await page.screenshot({ path: path.join(shots, path.basename(file)), ...options });
  if (process.env.UPDATE_PICTURE === '1') fs.writeFileSync(file, bytes);
  expect(bytes.length).toBeLessThan(mostBytes);
  expect(fs.statSync(file).size).toBeLessThan(mostBytes);
}

/** Waits until the wiring drawing is laid out. */
async function drawn(summary: FrameLocator): Promise<void> {
  await summary.locator('.frame svg [data-id^="part:"]').first().waitFor();
  await summary.locator('.laying-out').waitFor({ state: 'detached', timeout: 60_000 });
}

/** What of the window a picture shows. */
type Box = Readonly<Record<'x' | 'y' | 'width' | 'height', number>>;

it('shows each step of the walkthrough', async () => {
  const { page, editor, file, context } = await session.openExample();
  const takeStep = (name: string, clip: Box) =>
    take(page, path.join(WALKTHROUGH, `${name}.png`), 90_000, clip);
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
  await summary.getByText('Wiring drawing', { exact: true }).first().click();
  await drawn(summary);
  const frame = await page.locator('iframe.webview.ready').first().boundingBox();
  if (frame) await takeStep('summary', { ...frame, height: Math.min(frame.height, 560) });
  await context.close();
});
