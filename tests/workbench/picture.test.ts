import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { goTo, runCommand, summaryOf, typeOver, visibleText } from './page.ts';
import { type Session, startSession, whereIs } from './session.ts';

/*
 * The picture of the extension page: the example with one mistake, its number beside the text, and the summary at the
 * side. `npm run picture` takes it anew.
 */
const PICTURE = path.join(ROOT, 'docs/images/editor-and-summary.png');
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
  await summary.locator('text=Laying out').first().waitFor({ state: 'hidden' });
  fs.mkdirSync(path.join(ROOT, '.cache/screenshots'), { recursive: true });
  const shot = path.join(ROOT, '.cache/screenshots/picture.png');
  const bytes = await page.screenshot({ path: shot });
  if (process.env.UPDATE_PICTURE === '1') {
    fs.mkdirSync(path.dirname(PICTURE), { recursive: true });
    fs.writeFileSync(PICTURE, bytes);
  }
  expect(bytes.length).toBeLessThan(MOST_BYTES);
  expect(fs.statSync(PICTURE).size).toBeLessThan(MOST_BYTES);
  expect(window.refused).toEqual([]);
  await window.context.close();
});
