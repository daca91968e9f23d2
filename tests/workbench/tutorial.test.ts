import fs from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { fileAfter } from '../docs/steps.ts';
import { makeFolder, runCli, writeFile } from '../support/cli.ts';
import { ROOT } from '../support/lsp-client.ts';
import { goTo, pointAt, quickFixes, visibleText } from './page.ts';
import { BARE, type Box, take } from './pictures.ts';
import { type Session, startSession, type Window, whereIs } from './session.ts';

/* The pictures of the tutorial: its own steps, in the workbench and on the page that it makes at its end. */

const NAME = 'router.machine.yaml';
const TUTORIAL = fs.readFileSync(path.join(ROOT, 'docs/tutorial.md'), 'utf8');
const PICTURES = path.join(ROOT, 'docs/images/tutorial');

let session: Session;
beforeAll(async () => {
  session = await startSession('tutorial', { settings: BARE });
});
afterAll(() => session?.stop());

const takeAs = (page: Page, name: string, clip?: Box) =>
  take(session.browser, page, path.join(PICTURES, `${name}.png`), clip ? { clip } : {});

/** Opens the router as it is after a step. */
async function openAfter(step: number, blocks?: number): Promise<Window> {
  const window = await session.openFolder({ [NAME]: fileAfter(TUTORIAL, NAME, step, blocks) }, NAME);
  await window.page.setViewportSize({ width: 1100, height: 760 });
  await window.page.keyboard.press('Control+B'); // the side bar goes
  return window;
}

it('shows the numbers of the first axis', async () => {
  const { page, editor, file, context } = await openAfter(2);
  await goTo(page, whereIs(file, 'axes:').line, 1);
  await expect.poll(() => visibleText(editor), { timeout: 20_000 }).toMatch(/X:.*320/);
  const { y } = await pointAt(editor, 'axes:');
  await takeAs(page, 'numbers', { x: 0, y: y - 14, width: 1000, height: 330 });
  await context.close();
});

it('shows a finding under the cursor, and its cure', async () => {
  const { page, editor, file, context } = await openAfter(7);
  const { line } = whereIs(file, '  X:');
  await goTo(page, line, 3);
  await editor.locator('.squiggly-error').first().waitFor();
  const fixes = await quickFixes(page);
  await fixes.filter({ hasText: /lead/ }).first().waitFor();
  const { y } = await pointAt(editor, 'X:');
  await takeAs(page, 'finding', { x: 0, y: y - 60, width: 1000, height: 300 });
  await context.close();
});

it('shows the page that the tutorial makes', async () => {
  const folder = makeFolder();
  writeFile(folder, NAME, fileAfter(TUTORIAL, NAME, 12));
  const html = path.join(folder, 'router.html');
  await runCli(['report', '--date', '2026-06-06', '-o', html, NAME], folder);
  expect(fs.existsSync(html)).toBe(true);
  const context = await session.browser.newContext({
    viewport: { width: 1100, height: 900 },
    colorScheme: 'light',
  });
  const page = await context.newPage();
  await page.goto(`file://${html}`);
  for (const [name, height] of [
    ['inputs', 392],
    ['commissioning', 528],
  ] as const) {
    const section = page.locator(`#section-${name}`);
    await section.evaluate((element) => scrollBy(0, element.getBoundingClientRect().top - 8));
    await takeAs(page, name, { x: 0, y: 0, width: 1100, height });
  }
  // Of the drawing as much as can be read: the drives, and what is wired to them.
  await page
    .locator('#section-drawing [data-id="part:drive-y"]')
    .first()
    .evaluate((element) => element.scrollIntoView({ block: 'center', inline: 'center' }));
  await takeAs(page, 'drawing', { x: 32, y: 150, width: 1036, height: 560 });
  await context.close();
  fs.rmSync(folder, { recursive: true });
});
