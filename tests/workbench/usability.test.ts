import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { editorOf, goTo, problems, quickFixes, runCommand, visibleText } from './page.ts';
import { type Session, startSession, type Window, whereIs } from './session.ts';

/*
 * The three tasks of docs/usability.md in the editor, with the keyboard, as somebody does them who has read nothing but
 * the first screen. Each step and each fault that shows on the way is counted, so that neither grows unseen; the time is
 * printed for the protocol and never judged. Keys come at the pace of a slow typist.
 */
const KEY = { delay: 120 };
const WAIT = { timeout: 20_000 };
const MILL = 'lens-mill.machine.yaml';
const mill = fs.readFileSync(path.join(ROOT, 'examples/lens-mill', MILL), 'utf8');

let session: Session;
beforeAll(async () => {
  session = await startSession('usability');
});
afterAll(() => session?.stop());

/** Counts what somebody does and meets. */
function createTrial(name: string) {
  const started = performance.now();
  const steps: string[] = [];
  const met: string[] = [];
  return {
    steps,
    met,
    step: async (what: string, act: () => Promise<unknown>) => {
      steps.push(what);
      await act();
    },
    print: () => {
      const seconds = ((performance.now() - started) / 1000).toFixed(0);
      console.log(
        `${name}: ${steps.length} steps, ${met.length} faults met, ${seconds} s\n${[...steps, ...met.map((fault) => `met: ${fault}`)].map((line) => `  ${line}`).join('\n')}`,
      );
    },
  };
}

/** Errors and warnings as the Problems view reads them out. */
async function faults({ page }: Window): Promise<string[]> {
  const rows = await problems(page);
  const said = await rows.evaluateAll((all) => all.map((row) => row.getAttribute('aria-label') ?? ''));
  return said.filter((label) => /^(?:Error|Warning)/.test(label));
}

it('1: describe your own machine', async () => {
  const opened = await session.openFolder({ 'empty.machine.yaml': '' }, 'empty.machine.yaml');
  const { page } = opened;
  const trial = createTrial('describe your own machine');
  const box = page.locator('.quick-input-widget:visible');
  await trial.step('New machine, from the list of commands', () => runCommand(page, 'Fettle: New machine'));
  await trial.step('its name', async () => {
    await box.filter({ hasText: '(1/5)' }).waitFor();
    await page.keyboard.type('Bench mill', KEY);
    await page.keyboard.press('Enter');
  });
  for (const [at, what] of ['mains', 'axes', 'what carries them', 'spindle'].entries())
    await trial.step(`${what}: the usual answer`, async () => {
      await box.filter({ hasText: `(${at + 2}/5)` }).waitFor();
      await box.locator('.monaco-list-row').first().waitFor();
      await page.keyboard.press('Enter');
    });
  const editor = editorOf(page, 'bench-mill.machine.yaml');
  await expect.poll(() => visibleText(editor), WAIT).toMatch(/machine: Bench mill/);
  const lines = (await visibleText(editor)).split('\n');
  const panel = lines.findIndex((line) => /^\s*\d*\s*panel:/.test(line));
  await trial.step('a home sensor among the parts', async () => {
    await goTo(page, panel + 1, 1);
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.keyboard.type('home-x: { sheet: generic/inductive-pnp-nc', KEY);
    await page.keyboard.press('Escape');
  });
  await trial.step('its wires, the leads named by their colours', async () => {
    await page.keyboard.press('Control+End');
    await page.keyboard.press('Enter');
    await page.keyboard.type('wiring:', KEY);
    await page.keyboard.press('Escape');
    await page.keyboard.press('Enter');
    for (const link of [
      '- panel.S24 -> home-x.brown',
      '- panel.S0 -> home-x.blue',
      '- home-x.black -> panel.I3',
    ]) {
      await page.keyboard.type(link, KEY);
      await page.keyboard.press('Escape');
      await page.keyboard.press('Enter');
    }
  });
  await editor.locator('.squiggly-error').first().waitFor(WAIT);
  const said = await faults({ ...opened, editor });
  trial.met.push(...said);
  expect(said.join('\n')).toMatch(/no terminal brown, which is named here\. Did you mean BN\?/);
  trial.print();
  expect(trial.steps.length).toBeLessThanOrEqual(8);
  await page.context().close();
});

it('2: find out why the home sensor never triggers', async () => {
  const wrong = mill.replace(/(home-x: +\{ sheet: generic\/inductive-)pnp/, '$1npn');
  expect(wrong).not.toBe(mill);
  const window = await session.openFolder({ [MILL]: wrong }, MILL);
  const { page, editor } = window;
  const trial = createTrial('find out why the home sensor never triggers');
  await trial.step('look at the problems', async () => {
    await expect.poll(() => faults(window), WAIT).toHaveLength(1);
  });
  trial.met.push(...(await faults(window)));
  expect(trial.met[0]).toMatch(/can never turn on: at rest 0\.0 V, operated 0\.0 V.*Use a PNP sensor/);
  await trial.step('go to its line', async () => {
    await (await problems(page)).filter({ hasText: 'never turn on' }).first().dblclick();
    await expect.poll(() => visibleText(editor), WAIT).toMatch(/home-x\.BK -> panel\.I3/);
  });
  await trial.step('take the cure that is offered', async () => {
    const fixes = await quickFixes(page);
    await fixes
      .filter({ hasText: /inductive-pnp-nc/ })
      .first()
      .click();
  });
  await expect.poll(() => faults(window), WAIT).toEqual([]);
  trial.print();
  expect(trial.steps.length).toBeLessThanOrEqual(3);
  await window.context.close();
});

it('3: change the X screw from 5 to 10 mm lead', async () => {
  const window = await session.openFolder({ [MILL]: mill }, MILL);
  const { page, editor, file } = window;
  const trial = createTrial('change the X screw');
  const { line, column } = whereIs(file, 'lead: 5 mm, root: 13 mm, length: 540 mm', 6);
  await trial.step('type 10 for 5', async () => {
    await goTo(page, line, column);
    await page.keyboard.press('Delete');
    await page.keyboard.type('10', KEY);
    await page.keyboard.press('Escape');
  });
  await expect.poll(() => faults(window), WAIT).toHaveLength(1);
  trial.met.push(...(await faults(window)));
  expect(trial.met[0]).toMatch(/x-scale of panel says 640\.000 \/mm.*Set it to 320\.000 \/mm/);
  await trial.step('go to the setting that does not follow', async () => {
    await (await problems(page)).filter({ hasText: 'x-scale' }).first().dblclick();
    await expect.poll(() => visibleText(editor), WAIT).toMatch(/x-scale: 640/);
  });
  await trial.step('take the cure that is offered', async () => {
    await (await quickFixes(page)).filter({ hasText: /320/ }).first().click();
  });
  await expect.poll(() => faults(window), WAIT).toEqual([]);
  trial.print();
  expect(trial.steps.length).toBeLessThanOrEqual(3);
  await window.context.close();
});
