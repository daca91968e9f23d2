import { afterAll, beforeAll, expect, it } from 'vitest';
import { problems, runCommand, summaryOf } from './page.ts';
import { type Session, shoot, startSession } from './session.ts';

let session: Session;
beforeAll(async () => {
  session = await startSession('restricted', { trusted: false });
});
afterAll(() => session?.stop());

it('works in a workspace that is not trusted', async () => {
  const { page, context } = await session.openExample((text) => text.replace('620 mm', '620'));
  await page.locator('#status\\.workspaceTrust').waitFor();
  const row = (await problems(page)).filter({ hasText: '620' }).first();
  await row.waitFor();
  expect(await row.getAttribute('aria-label')).toMatch(/^Error/);
  await runCommand(page, 'Fettle: Show wiring summary');
  await summaryOf(page).locator('tr[data-id="axis:X"]').waitFor();
  await shoot(page, 'restricted');
  await context.close();
});
