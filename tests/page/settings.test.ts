import { expect, it } from 'vitest';
import { summarise } from '../../server/core/summary/summarise.ts';
import { analyseTexts } from '../support/marked.ts';
import { makeServer, URI } from './made-up-server.ts';
import { hostPage, openPage } from './open-page.ts';

const host = hostPage();

const text = `machine: Toy mill
parts:
  panel: { class: controller, settings: { P21: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3 }, P25: { is: travel, axis: X, unit: mm, decimals: 0 } }, set: { P21: 160.000 /mm, P25: 300 mm } }
  drive-x: { class: drive, settings: { microsteps: { is: microsteps, choices: [8, 16] } }, set: { microsteps: 8 } }
  motor-x: { class: motor, facts: { step-angle: 1.8 deg } }
axes:
  X: { drive: drive-x, motor: motor-x, screw: { lead: 10 mm }, travel: 300 mm }
`;

it('ticks a setting off; the tick outlives edits of other things, and not that of its value', async () => {
  let now = text;
  const { page, tell, heard, complaints } = await openPage(
    host.browser,
    host.url,
    makeServer(
      () => summarise(analyseTexts(new Map([['mill.machine.yaml', now]])).analysis).items,
      'Toy mill',
    ),
  );
  const box = (name: string) => page.getByRole('checkbox', { name });
  const scale = 'P21 of panel is keyed in as 160.000 /mm';
  await box(scale).click();
  await box('P25 of panel is keyed in as 300 mm').press('Space');
  expect(await page.getByRole('checkbox', { checked: true }).count()).toBe(2);
  expect((await heard()).some(({ kind }) => kind === 'go')).toBe(false);

  now = text.replace('travel: 300 mm', 'travel: 400 mm');
  await tell({ kind: 'stale', uri: URI });
  await box('P25 of panel is keyed in as 400 mm').waitFor();
  expect(await page.getByRole('checkbox', { checked: true }).count()).toBe(1);
  expect(await box(scale).getAttribute('aria-checked')).toBe('true');

  await page.locator('tr[data-id="setting:panel.P25"] th').click();
  expect((await heard()).at(-1)).toEqual({ kind: 'go', uri: URI, id: 'setting:panel.P25' });
  expect(complaints).toEqual([]);
});
