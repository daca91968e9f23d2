import { expect, test } from 'vitest';
import { AXIS, type Differences, inInches, smallMachine } from '../core/values/small-machine.ts';
import { analyseTexts } from '../support/marked.ts';

const SETTINGS =
  'scale: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3, default: 160 /mm }, reach: { is: travel, axis: X, unit: mm, decimals: 1, default: 600 mm }';
const RECORD =
  'records:\n  - { date: 2026-01-01, axis: X, asked: 254 mm, seen: 254.6 mm, within: 0.05 mm }\n';

/** What is found about the machine itself; that it mixes units is about its text. */
const codesOf = (text: string) =>
  analyseTexts(new Map([['small.machine.yaml', text]]))
    .findings.map(({ code }) => code)
    .filter((code) => !code.startsWith('unit/'));

test.each<[string, Differences, string]>([
  ['as it should be', { panelSettings: SETTINGS }, ''],
  ['measured', { panelSettings: SETTINGS, more: RECORD }, 'record/correction'],
  [
    'with other microsteps',
    { panelSettings: SETTINGS, driveSet: 'microsteps: 16' },
    'setting/left-at-default',
  ],
  [
    'that is too heavy',
    {
      axis: AXIS.replace('mass: 20 kg', 'mass: 20 kg, incline: 90 deg').replace(
        'force: 100 N',
        'force: 900 N',
      ),
    },
    'motion/torque-too-small',
  ],
  [
    'measured for its play',
    {
      panelSettings: `${SETTINGS}, play: { is: backlash, axis: X, unit: mm, decimals: 3, default: 0 mm }`,
      more: 'records:\n  - { date: 2026-01-01, axis: X, backlash: 0.0508 mm, within: 0.0127 mm }\n',
    },
    'record/backlash',
  ],
  ['with a slow controller', { pulse: 'top-rate: 10 kHz' }, 'motion/feed-above-limit'],
])('a machine %s has the same findings in inches', (_, of, expected) => {
  const metric = smallMachine(of);
  const inches = inInches(metric);
  expect(inches).not.toBe(metric);
  const codes = codesOf(metric);
  if (expected !== '') expect(codes).toContain(expected);
  expect(codesOf(inches)).toEqual(codes);
});

test('what is written in inches is shown in inches, and its value stays in the unit of its address', () => {
  const wheel = 'handwheel: { part: panel, step: 0.001 in, spin: 1 rev/s }\n';
  const text = inInches(smallMachine({ more: RECORD })).replace('records:', `${wheel}records:`);
  const { analysis } = analyseTexts(new Map([['small.machine.yaml', text]]));
  const shown = (address: string) => analysis.values.byAddress.get(address)?.shown;
  expect(shown('axes.X.pulses-per-length')).toBe('4064 /in'); // 160 /mm × 25.4
  expect(shown('axes.X.ramp-distance')).toBe('0.393701 in'); // 10 mm
  expect(shown('axes.X.measured-error')).toBe('0.023622 in'); // 0.6 mm
  expect(shown('axes.X.pulses-per-turn')).toBe('1600');
  const scale = analysis.values.byAddress.get('axes.X.pulses-per-length');
  expect([scale?.unit, scale?.value]).toEqual(['/mm', expect.closeTo(160, 9)]);
  expect(
    analyseTexts(new Map([['small.machine.yaml', smallMachine()]])).analysis.values.byAddress.get(
      'axes.X.pulses-per-length',
    )?.shown,
  ).toBe('160 /mm');
});

test('a value in inches that a metric setting cannot take is given as that setting shows it', () => {
  const text = smallMachine({ panelSettings: SETTINGS, panelSet: 'scale: 160 /in, reach: 600.02 mm' });
  const messages = analyseTexts(new Map([['small.machine.yaml', text]]))
    .findings.filter(({ code }) => code === 'name/setting-finer-than-step')
    .map(({ message }) => message);
  expect(messages).toEqual([
    // 160 / 25.4 = 6.2992
    'scale of panel goes in steps of 0.001 /mm, so 160 /in cannot be keyed in as it stands. The nearest value is 6.299 /mm.',
    'reach of panel goes in steps of 0.1 mm, so 600.02 mm cannot be keyed in as it stands. The nearest value is 600 mm.',
  ]);
});
