import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { smallMachine } from '../core/values/small-machine.ts';
import { type Ran, runHere } from '../support/cli.ts';
import { ROOT } from '../support/lsp-client.ts';

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-explain-'));
const machine = path.join(folder, 'small.machine.yaml');
const text = smallMachine({
  driveSettings:
    'microsteps: { is: microsteps, choices: [8, 16], default: 8 }, phase-current: { is: phase-current, unit: A, default: 3 A }',
  driveSet: 'microsteps: 8',
});
beforeAll(() => fs.writeFileSync(machine, text));
afterAll(() => fs.rmSync(folder, { recursive: true }));

const run = (...args: readonly string[]): Promise<Ran> => runHere(['explain', ...args]);

test('a number is explained', async () => {
  const { code, out } = await run(machine, 'axes.X.pulses-per-length');
  expect(code).toBe(0);
  expect(out).toMatch(/^pulses per length of X: 160 \/mm\n/);
});

test('another value is tried, and the file stays as it is', async () => {
  const { code, out, err } = await run(
    machine,
    'axes.X.pulses-per-length',
    '--set',
    'parts.drive-1.microsteps=16',
  );
  expect([code, err]).toEqual([0, '']);
  expect(out.split('\n').slice(0, 3)).toEqual([
    'With parts.drive-1.microsteps 16 in place of 8',
    '',
    'pulses per length of X: 160 /mm → 320 /mm',
  ]);
  expect(out).toContain('  resolution of X: 0.00625 mm → 0.003125 mm\n');
  expect(fs.readFileSync(machine, 'utf8')).toBe(text);
});

test('several values may be tried, and no address need be given', async () => {
  const { code, out } = await run(
    machine,
    '--set',
    'axes.X.screw.lead=5 mm',
    '--set',
    'parts.drive-1.microsteps=16',
  );
  expect(code).toBe(0);
  expect(out).toMatch(/pulses per length of X: 160 \/mm → 640 \/mm/);
});

test.each([
  [
    ['--set', 'parts.drive-1.microstep=16'],
    /nothing at parts\.drive-1\.microstep\. Did you mean parts\.drive-1\.microsteps\?/,
  ],
  [
    ['--set', 'microsteps'],
    /--set takes PATH=VALUE, e\.g\. --set parts\.drive-x\.microsteps=16; "microsteps" is not/,
  ],
  [
    ['axes.X.top-fed', '--set', 'axes.X.travel=500 mm'],
    /no value at axes\.X\.top-fed\. Did you mean axes\.X\.top-feed\?/,
  ],
  [['axes.X.top-feed', 'axes.X.travel'], /explain takes a file and an address/],
])('%j is refused in words that help', async (args, words) => {
  const { code, out, err } = await run(machine, ...args);
  expect([code, out]).toEqual([2, '']);
  expect(err).toMatch(words);
});

test.each([
  [
    'home-x',
    /^fettle: There is no value at home-x\. Of home-x there are circuits\.panel\.x-home\.rest, .*operated/,
  ],
  ['panel.I3', /Of panel\.I3 there are circuits\.panel\.x-home\.rest, /],
  ['logic-psu', /Of logic-psu there are parts\.logic-psu\.load/],
])('asked for the part or the terminal %s it names what there is of it', async (name, words) => {
  const { code, err } = await run(path.join(ROOT, 'examples/lens-mill/lens-mill.machine.yaml'), name);
  expect(code).toBe(2);
  expect(err).toMatch(words);
});

test('without an address it lists what is not computed, by the figure that is lacking', async () => {
  const lacking = path.join(folder, 'lacking.machine.yaml');
  fs.writeFileSync(lacking, text.replace('inductance: 3 mH', 'resistance: 1 ohm'));
  const { code, out } = await run(lacking);
  expect(code).toBe(0);
  expect(out).toMatch(/^\d+ values are computed\. Not computed:\n\n/);
  expect(out).toContain('  speed from which the torque falls of X: needs the inductance of motor-1\n');
  expect(out).not.toContain('a measurement'); // that a measurement agrees is no lack
  expect((await run(machine)).out).not.toContain('the inductance of motor-1');
});

test('a sheet is put on a bench, where only its own figures are lacking', async () => {
  const parts = path.join(ROOT, 'server/parts');
  const sheet = path.join(folder, "a drive's.part.yaml");
  const drive = fs.readFileSync(path.join(parts, 'microstep-drive-50v.part.yaml'), 'utf8');
  fs.writeFileSync(sheet, drive.replace(', hold: 2 us', ''));
  const { code, out } = await run(sheet);
  expect(code).toBe(0);
  expect(out).toMatch(
    /^On a bench where everything else is known, \d+ values are computed\. Not computed:\n\n/,
  );
  expect(out).toContain('  hold margin of X, hold margin in percent of X: needs hold of direction\n');
  for (const name of [
    'relay-24v',
    'stepper-57mm-2nm',
    'inductive-pnp-nc',
    'supply-24v',
    'spindle-2-pole-800w',
  ]) {
    const whole = await run(path.join(parts, `${name}.part.yaml`));
    expect(whole.out, name).toMatch(/^On a bench .*, and nothing is lacking for more\.\n$/);
  }
  fs.writeFileSync(sheet, 'part: X\nclass: drive\n');
  expect((await run(sheet)).out).toContain('needs a setting that is microsteps\n');
  expect((await run(path.join(parts, 'earth-bar-24.part.yaml'))).out).toMatch(/^Nothing is computed from/);
});
