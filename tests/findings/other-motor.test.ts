import { expect, test } from 'vitest';
import type { Finding } from '../../server/core/findings/rule.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import { analyseTexts } from '../support/marked.ts';

const DRIVE =
  '{ class: drive, terminals: { m: [A+, A-, B+, B-] }, circuits: { a: { phase-out: [A+, A-], current: 3 A }, b: { phase-out: [B+, B-], current: 3 A } } }';
const MOTOR =
  '{ class: motor, terminals: { m: [A+, A-, B+, B-] }, circuits: { a: { winding: [A+, A-], current: 3 A, resistance: 1 ohm, inductance: 3 mH }, b: { winding: [B+, B-], current: 3 A, resistance: 1 ohm, inductance: 3 mH } } }';
const STRIP =
  '{ class: terminal-strip, terminals: { s: [1, 2, 3, 4, 5, 6, 7, 8] }, circuits: { a: { joined: [1, 5] }, b: { joined: [2, 6] }, c: { joined: [3, 7] }, d: { joined: [4, 8] } } }';
const RELAY =
  '{ class: relay, terminals: { s: [1, 2, 3, 4, 5, 6, 7, 8] }, circuits: { a: { contact: [1, 2], at-rest: open }, b: { contact: [3, 4], at-rest: open }, c: { contact: [5, 6], at-rest: open }, d: { contact: [7, 8], at-rest: open } } }';
const ENDS = ['A+', 'A-', 'B+', 'B-'];

/** All four wires between a drive and a motor. */
const wired = (from: string, to: string) => ENDS.map((end) => `${from}.${end} -> ${to}.${end}`);

/** A machine with three drives, three motors, a strip of terminals and a relay. */
const machine = (links: readonly string[], axes: string) => `machine: Toy table
parts:
  d1: ${DRIVE}
  d2: ${DRIVE}
  d3: ${DRIVE}
  m1: ${MOTOR}
  m2: ${MOTOR}
  m3: ${MOTOR}
  strip: ${STRIP}
  relay: ${RELAY}
wiring:
${links.map((link) => `  - ${link}\n`).join('')}axes:
${axes}`;

function look(text: string) {
  const analysis = analyseTexts(new Map([['table.machine.yaml', text]]));
  const found = analysis.findings.filter(({ code }) => code === 'wiring/other-motor');
  return { ...analysis, found, said: found.map(({ message }) => message) };
}

const told = (links: readonly string[], axes: string) => look(machine(links, axes)).said;

const STRAIGHT = [...wired('d1', 'm1'), ...wired('d2', 'm2'), ...wired('d3', 'm3')];

test('drives that turn the motors of their axes are as they should be', () => {
  expect(
    told(STRAIGHT, '  X: { drive: d1, motor: m1 }\n  Y: { drive: [d2, d3], motor: [m2, m3] }\n'),
  ).toEqual([]);
});

test('a drive of an axis may turn the other of its two motors', () => {
  expect(told(STRAIGHT, '  Y: { drive: [d1, d2], motor: [m2, m1] }\n')).toEqual([]);
});

test('a motor of another axis is told with the one that is wired', () => {
  expect(told(STRAIGHT, '  X: { drive: d1, motor: m2 }\n  Y: { drive: d2, motor: m2 }\n')).toEqual([
    'X names m2 for d1, which is wired to m1: torque, feeds and current of the axis are computed for the wrong motor. Name m1, or wire d1 to m2.',
  ]);
});

test('the terminals of a strip lead a motor cable on', () => {
  const through = [
    ...ENDS.map((end, place) => `d1.${end} -> strip.${place + 1}`),
    ...ENDS.map((end, place) => `strip.${place + 5} -> m1.${end}`),
  ];
  expect(told(through, '  X: { drive: d1, motor: m1 }\n')).toEqual([]);
  expect(told(through, '  X: { drive: d1, motor: m2 }\n')).toHaveLength(1);
});

test('contacts may switch a drive over to a motor', () => {
  const through = [
    ...wired('d1', 'm1'),
    ...ENDS.map((end, place) => `d1.${end} -> relay.${2 * place + 1}`),
    ...ENDS.map((end, place) => `relay.${2 * place + 2} -> m2.${end}`),
  ];
  expect(told(through, '  X: { drive: d1, motor: m1 }\n  Y: { drive: d1, motor: m2 }\n')).toEqual([]);
});

test('two motors may share one drive, side by side or one behind the other', () => {
  const beside = [...wired('d1', 'm1'), ...wired('d1', 'm2')];
  const behind = ['A', 'B'].flatMap((phase) => [
    `d1.${phase}+ -> m1.${phase}+`,
    `m1.${phase}- -> m2.${phase}+`,
    `m2.${phase}- -> d1.${phase}-`,
  ]);
  for (const links of [beside, behind])
    expect(told(links, '  Y: { drive: d1, motor: [m1, m2] }\n')).toEqual([]);
});

test('nothing is said of what is not wired, and of an axis without drive or motor', () => {
  expect(told([], '  X: { drive: d1, motor: m1 }\n  Y: { drive: [d2, d3], motor: [m2, m3] }\n')).toEqual([]);
  expect(told(STRAIGHT, '  X: { drive: d1 }\n  Y: { motor: m2 }\n  Z: { travel: 10 mm }\n')).toEqual([]);
});

test('one wire that went astray is a matter of its pair', () => {
  const astray = ['d1.A+ -> m2.A+', ...wired('d1', 'm1').slice(1), ...wired('d2', 'm2')];
  expect(told(astray, '  X: { drive: d1, motor: m1 }\n  Y: { drive: d2, motor: m2 }\n')).toEqual([]);
});

test('lists that name a part twice, or lack one, are told by what is wired', () => {
  const lists = (drives: string, motors: string) =>
    told(STRAIGHT, `  Y: { drive: ${drives}, motor: ${motors} }\n`).map((message) =>
      message.replace(/:.*/, ''),
    );
  expect(lists('[d1, d2]', '[m1, m1]')).toEqual(['Y names m1 for d2, which is wired to m2']);
  expect(lists('[d1, d2]', '[m2, m2]')).toEqual(['Y names m2 for d1, which is wired to m1']);
  expect(lists('[d1, d1]', '[m1, m2]')).toEqual(['Y names d1 for m2, which is wired to d2']);
  expect(lists('[d1, d2]', 'm2')).toEqual(['Y names d1 but not m1, to which it is wired']);
  expect(lists('d1', '[m1, m2]')).toEqual(['Y names m2 but not d2, to which it is wired']);
});

test('lists that cannot be right are told before anything is wired', () => {
  const lists = (drives: string, motors: string) =>
    told([], `  Y: { drive: ${drives}, motor: ${motors} }\n`).map((message) => message.replace(/:.*/, ''));
  expect(lists('[d1, d2]', '[m1, m1]')).toEqual(['Y names m1 twice']);
  expect(lists('[d1, d1]', '[m1, m2]')).toEqual(['Y names d1 twice']);
  expect(lists('[d1, d2]', 'm1')).toEqual(['Y names more drives than motors, and there is no motor for d2']);
  expect(lists('d1', '[m1, m2]')).toEqual([]);
});

/** What the text says after each of the fixes, as far as it is another line than before. */
function cured(text: string): string[][] {
  const { found, analysis } = look(text);
  return (
    (found[0] as Finding | undefined)?.fixes?.map(({ edits }) => {
      const placed = edits
        .map((edit) => ({ ...rangeOf(analysis.tree, edit.at), text: edit.text }))
        .sort((a, b) => (b.from ?? 0) - (a.from ?? 0));
      let after = text;
      for (const edit of placed) after = after.slice(0, edit.from) + edit.text + after.slice(edit.to);
      expect(look(after).said).toEqual([]);
      const before = text.split('\n');
      return after.split('\n').filter((line, place) => line !== before[place]);
    }) ?? []
  );
}

test('motors that two axes have exchanged are one mistake, cured in the names or in the wires', () => {
  const text = machine(STRAIGHT, '  X: { drive: d1, motor: m2 }\n  Y: { drive: d2, motor: m1 }\n');
  expect(look(text).said).toEqual([
    'd1 moves X and is wired to m1, and d2 moves Y and is wired to m2: if the wires are led so, each of the two axes moves when the other should; if not, their torque and currents are computed for the wrong motors. Exchange the two motors in the axes, or their wires.',
  ]);
  const [names, wires] = cured(text);
  expect(names).toEqual(['  X: { drive: d1, motor: m1 }', '  Y: { drive: d2, motor: m2 }']);
  expect(wires).toEqual([...wired('d1', 'm2'), ...wired('d2', 'm1')].map((link) => `  - ${link}`));
});

test('motors that three axes have passed round are one mistake, cured in the names or in the wires', () => {
  const text = machine(
    STRAIGHT,
    '  X: { drive: d1, motor: m2 }\n  Y: { drive: d2, motor: m3 }\n  Z: { drive: d3, motor: m1 }\n',
  );
  const { found, said } = look(text);
  expect(said).toEqual([
    'X names m2 and its d1 is wired to m1, Y names m3 and its d2 is wired to m2 and Z names m1 and its d3 is wired to m3: if the wires are led so, each of the 3 axes moves when another of them should; if not, their torque and currents are computed for the wrong motors. Name the motor in each axis to which its drive is wired, or lead the wires to those that are named.',
  ]);
  expect(found[0]?.fixes?.map(({ title }) => title)).toEqual([
    'Name m1, m2 and m3 in X, Y and Z',
    'Lead the wires of d1, d2 and d3 to m2, m3 and m1',
  ]);
  const [names, wires] = cured(text);
  expect(names).toEqual([
    '  X: { drive: d1, motor: m1 }',
    '  Y: { drive: d2, motor: m2 }',
    '  Z: { drive: d3, motor: m3 }',
  ]);
  expect(wires).toEqual(
    [...wired('d1', 'm2'), ...wired('d2', 'm3'), ...wired('d3', 'm1')].map((link) => `  - ${link}`),
  );
});

test('a drive that leads into a ring of others stands alone', () => {
  // X's d1 turns m1, which Y names as well; Y and Z have exchanged theirs.
  const said = told(
    STRAIGHT,
    '  X: { drive: d1, motor: m3 }\n  Y: { drive: d2, motor: m3 }\n  Z: { drive: d3, motor: m2 }\n',
  );
  expect(said.map((message) => message.slice(0, 32))).toEqual([
    'X names m3 for d1, which is wire',
    'd2 moves Y and is wired to m2, a',
  ]);
});

test('wires that lead to the motor of another axis are told where they stand, and led back', () => {
  const text = machine(
    [...wired('d1', 'm2'), ...wired('d2', 'm2')],
    '  X: { drive: d1, motor: m1 }\n  Y: { drive: d2, motor: m2 }\n',
  );
  const { found, said } = look(text);
  expect(said).toEqual([
    'd1 moves X and is wired to m2, the motor of Y, which has a drive of its own: two drives feed one motor and can destroy each other, and m1 stands still. Wire it to m1.',
  ]);
  expect(found[0]?.at.block.text.slice(found[0].at.from, found[0].at.to)).toBe('d1.A+');
  expect(cured(text)).toEqual([wired('d1', 'm1').map((link) => `  - ${link}`)]);
});

test('a name that is missing is added in its place', () => {
  const list = (axes: string) => cured(machine(STRAIGHT, axes));
  expect(list('  Y: { drive: [d1, d2], motor: m2 }\n')).toEqual([
    ['  Y: { drive: [d1, d2], motor: [m1, m2] }'],
  ]);
  expect(list('  Y: { drive: [d1, d2], motor: [m1] }\n')).toEqual([
    ['  Y: { drive: [d1, d2], motor: [m1, m2] }'],
  ]);
  expect(list('  Y: { drive: [d1], motor: [m1, m2] }\n')).toEqual([
    ['  Y: { drive: [d1, d2], motor: [m1, m2] }'],
  ]);
  expect(list('  Y: { drive: [d2, d3], motor: [m3] }\n')).toEqual([
    ['  Y: { drive: [d2, d3], motor: [m2, m3] }'],
  ]);
});
