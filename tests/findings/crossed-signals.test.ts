import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';

/** A panel with outputs for X and A, and two drives of X of which the second hangs on some of them. */
const crossed = (pulse: string, enable: string, axes: string) => {
  const drive =
    '{ class: drive, terminals: { s: [P, E, M] }, circuits: { pulse: { opto-in: [P, M], does: pulse, forward: 1.2 V, series: 270 ohm, on-at: 8 mA, most: 20 mA }, enable: { opto-in: [E, M], does: enable, forward: 1.2 V, series: 270 ohm, on-at: 8 mA, most: 20 mA } } }';
  const output = (end: string, does: string) =>
    `{ source-out: [${end}, 5V], does: ${does}, drop: 0.3 V, current: 50 mA }`;
  const text = `machine: Toy gantry
parts:
  panel: { class: controller, terminals: { s: [5V, XP, XE, AP, AE, G] }, circuits: { logic: { power-out: [5V, G], voltage: 5 V, current: 200 mA }, xp: ${output('XP', 'pulse X')}, xe: ${output('XE', 'enable X')}, ap: ${output('AP', 'pulse A')}, ae: ${output('AE', 'enable A')} } }
  drive-1: ${drive}
  drive-2: ${drive}
wiring:
  - panel.G -> drive-1.M, drive-2.M
  - panel.XP -> drive-1.P
  - panel.XE -> drive-1.E
  - panel.${pulse} -> drive-2.P
  - panel.${enable} -> drive-2.E
axes:
  X: { drive: [drive-1, drive-2] }
${axes}`;
  const { findings } = analyseTexts(new Map([['gantry.machine.yaml', text]]));
  return findings.filter(({ code }) => code === 'wiring/crossed-signals').map(({ message }) => message);
};

test('pulses of another axis are told on a drive', () => {
  expect(crossed('AP', 'XE', '  A: { travel: 90 deg }\n')[0]).toMatch(
    /^drive-2\.P \(pulse\) is wired to panel\.AP, which is for pulse A, and drive-2 is a drive of X: .* Wire it to panel\.XP\.$/,
  );
});

test('pulses that two axes have exchanged are one mistake, told with the wire to exchange', () => {
  const drive =
    '{ class: drive, terminals: { s: [P, M] }, circuits: { pulse: { opto-in: [P, M], does: pulse, forward: 1.2 V, series: 270 ohm, on-at: 8 mA, most: 20 mA } } }';
  const output = (end: string, does: string) =>
    `{ source-out: [${end}, 5V], does: ${does}, drop: 0.3 V, current: 50 mA }`;
  const wired = (x: string, y: string) => `machine: Toy table
parts:
  panel: { class: controller, terminals: { s: [5V, XP, YP, G] }, circuits: { logic: { power-out: [5V, G], voltage: 5 V, current: 200 mA }, xp: ${output('XP', 'pulse X')}, yp: ${output('YP', 'pulse Y')} } }
  drive-x: ${drive}
  drive-y: ${drive}
wiring:
  - panel.G -> drive-x.M, drive-y.M
  - panel.${x} -> drive-x.P
  - panel.${y} -> drive-y.P
axes:
  X: { drive: drive-x }
  Y: { drive: drive-y }
`;
  const text = wired('YP', 'XP');
  const { findings } = analyseTexts(new Map([['table.machine.yaml', text]]));
  const [first, ...others] = findings.filter(({ code }) => code === 'wiring/crossed-signals');
  expect(others).toEqual([]);
  expect(first?.message).toBe(
    'drive-x.P (pulse) is wired to panel.YP, which is for pulse Y, and drive-x is the drive of X: it moves when another axis should. Exchange it with the wire of drive-y.P, which is wired to panel.XP.',
  );
  expect(first?.fixes?.map(({ title }) => title)).toEqual(['Exchange the wires at drive-x.P and drive-y.P']);
});

test('an output for an axis that the machine does not have may move the second motor of another', () => {
  expect(crossed('AP', 'AE', '')).toEqual([]);
});

test('one enable may serve drives of any axis', () => {
  expect(crossed('XP', 'AE', '  A: { travel: 90 deg }\n')).toEqual([]);
});

test('the enable of an axis is not taken for its pulses', () => {
  expect(crossed('XE', 'XP', '')).toHaveLength(1);
});
