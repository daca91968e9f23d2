import fs from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readExample } from '../support/example.ts';
import { goTo, hoverAt, pointAt } from './page.ts';
import { type Session, shoot, startSession, whereIs } from './session.ts';

let session: Session;
beforeAll(async () => {
  session = await startSession('try-value');
});
afterAll(() => session?.stop());

it('tries another value from the link of a hover, and shows what would change beside the text', async () => {
  const { page, editor, file, context } = await session.openExample();
  const { line, column } = whereIs(file, '{ lead: 10 mm', '{ lead: '.length);
  await goTo(page, line, column);
  const box = page.locator('.quick-input-widget:visible');
  const title = box.locator('.quick-input-title', { hasText: 'Try another value of axes.X.screw.lead' });
  const isAsked = () =>
    title.waitFor({ timeout: 5000 }).then(
      () => true,
      () => false,
    );
  // A hover goes when what is under the pointer is drawn anew, so the pointer may have to come again.
  for (let tries = 0; tries < 4; tries++) {
    await hoverAt(page, () => pointAt(editor, '10 mm, root'), /Try another value/);
    const link = page.locator('.monaco-hover:not(.hidden) a', { hasText: 'Try another value' }).first();
    await link.dispatchEvent('click', {}, { timeout: 2000 }).catch(() => undefined);
    if (await isAsked()) break;
  }
  await title.waitFor({ timeout: 1000 });
  expect(await box.locator('input').first().inputValue()).toBe('10 mm');
  await box.locator('input').first().fill('5 mm');
  await page.keyboard.press('Enter');

  const preview = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  await preview.getByRole('cell', { name: 'pulses per length of X' }).waitFor();
  const row = preview.getByRole('row', { name: /pulses per length of X/ });
  expect(await row.textContent()).toMatch(/160 \/mm\s*320 \/mm/);
  await shoot(page, 'try-value');
  expect(fs.readFileSync(file, 'utf8')).toBe(readExample());
  await context.close();
});
