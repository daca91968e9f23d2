import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { CLASSES } from '../../../schemas/index.ts';
import { usualValue } from '../../../server/core/bench/gaps.ts';
import { sayNotComputed } from '../../../server/core/features/not-computed.ts';
import { createFettle } from '../../../server/core/fettle.ts';
import type { Key, Shape } from '../../../server/core/shape/shape.ts';
import { sheetShape } from '../../../server/core/shape/shapes.ts';
import { ROOT } from '../../support/lsp-client.ts';
import { worldOf } from '../../support/world.ts';

const PARTS = path.join(ROOT, 'server/parts');
const readPart = (name: string) => fs.readFileSync(path.join(PARTS, `${name}.part.yaml`), 'utf8');

/** What a sheet lacks, a line each; undefined where nothing is computed from it. */
function lacksOf(text: string): string[] | undefined {
  const fettle = createFettle(worldOf(new Map()));
  return fettle.sheetLacks(fettle.analyse('sheets/mine.part.yaml', text))?.lacks.map(sayNotComputed);
}

/* One figure taken from a sheet that ships, and what is said to need it. A figure of another class is no lack. */
test.each([
  ['microstep-drive-50v', ', hold: 2 us', /^hold margin of X.*: needs hold of direction$/],
  ['microstep-drive-50v', ', least-on: 2.5 us', /^on-time margin of X.*: needs least-on of pulse$/],
  ['stepper-57mm-1nm', '  step-angle: 1.8 deg\n', /pulses per turn of X.*: needs the fact step-angle$/],
  ['stepper-57mm-1nm', '  inertia: 280 g.cm2\n', /^inertia at the motor of X.*: needs the fact inertia$/],
  ['controller-3-axis', ', hold: 5 us }', /^hold margin of X.*: needs hold of x-direction$/],
  [
    'controller-3-axis',
    ', on-above: 14 V, off-below: 6 V',
    /needs on-above of x-near or off-below of x-near$/,
  ],
  [
    'supply-24v',
    ', current: 2.5 A',
    /^share of the supply.s current of part, whether a supply feeds more than it gives \(power\/overloaded\): needs current of output$/,
  ],
  [
    'frequency-converter-1ph-750w',
    ', resistance: 20 kohm',
    /^loss of the speed signal of the spindle: needs resistance of speed$/,
  ],
  [
    'frequency-converter-1ph-750w',
    /^ {2}ramp-up: .*\n/m,
    /^ramp time of the spindle.*: needs a setting that is ramp-up$/,
  ],
  ['spindle-2-pole-800w', '  poles: 2\n', /top speed of the spindle.*: needs the fact poles/],
  ['spindle-2-pole-800w', /^ {2}plate-speed: .*\n/m, /^slip of the spindle: needs the fact plate-speed$/],
  ['handwheel-pair', '  detents: 100\n', /^feed at 1 of the handwheel.*: needs the fact detents$/],
  ['relay-24v', ', resistance: 1.1 kohm', /coil .*: needs resistance of coil$/],
  [
    'contactor-24v',
    ', current: 20 A',
    /^whether a contact has to switch more than it can \(level\/contact-overloaded\): needs current of pole-1$/,
  ],
  [
    'fuse-holder-6a',
    'rating: 6 A, ',
    /^whether a fuse is smaller than what flows through it \(wire\/fuse-below-load\): needs rating of cartridge$/,
  ],
  ['circuit-breaker-10a', /rating: 10 A,? ?/, /fuse-below-load\): needs rating of/],
  ['fan-24v', /, current: [\d.]+ m?A/, /^current fed by the supply of psu.*: needs current of/],
])('%s without %s', (name, figure, line) => {
  const whole = readPart(name);
  const text = whole.replace(figure, typeof figure === 'string' && figure.endsWith(' }') ? ' }' : '');
  expect(text).not.toBe(whole);
  const lines = lacksOf(text) ?? [];
  expect(
    lines.filter((each) => line.test(each)),
    lines.join('\n'),
  ).not.toEqual([]);
  expect((lacksOf(whole) ?? []).filter((each) => line.test(each))).toEqual([]);
});

describe.each(Object.keys(CLASSES))('a sheet of a %s that has only been begun', (partClass) => {
  const lines = lacksOf(`part: Begun\nclass: ${partClass}\nterminals: { t: [A, B] }\n`);

  test('says which circuits are wanted, and what for', () => {
    if (partClass === 'terminal-strip') expect(lines).toBeUndefined();
    else expect(lines?.[0]).toMatch(/: needs a circuit that is, or does, /);
  });
});

test('figures are filled in whatever way the sheet is written', () => {
  const flow = readPart('microstep-drive-50v').replace(', hold: 2 us', '');
  const block = flow.replace(
    /^ {2}direction: \{ (.*) \}$/m,
    (_, rest: string) => `  direction:\n    ${rest.replace(/, (?=[a-z-]+:)/g, '\n    ')}`,
  );
  expect(block).not.toBe(flow);
  expect(lacksOf(block)).toEqual(lacksOf(flow));
  expect(lacksOf(flow.replaceAll('\n', '\r\n'))).toEqual(lacksOf(flow));
});

test.each([
  '',
  'class: drive',
  'class: drive\ncircuits: { a: { opto-in',
  'class: [\n',
  '- 1',
  'class: drive\nfacts: ~\n',
])('a sheet that is half typed does no harm: %j', (text) => expect(() => lacksOf(text)).not.toThrow());

test('the reference names a usual value for every figure, or it is a choice', () => {
  const keys = keysBelow(sheetShape).filter(({ shape }) => shape.kind === 'leaf' && isFigure(shape));
  expect(keys.length).toBeGreaterThan(80);
  expect(keys.filter((key) => usualValue(key) === undefined).map(({ name }) => name)).toEqual([]);
});

const isFigure = (shape: Extract<Shape, { kind: 'leaf' }>) =>
  ['quantity', 'span', 'yes-no', 'choice'].includes(shape.leaf.kind);

/** The keys of circuits and facts. */
function keysBelow(shape: Shape): Key[] {
  const top = shape.kind === 'map' ? shape.keys : new Map<string, Key>();
  const circuits = top.get('circuits')?.shape;
  const kinds =
    circuits?.kind === 'entries' && circuits.value.kind === 'kinds' ? circuits.value.kinds : new Map();
  const facts = top.get('facts')?.shape;
  return [...kinds.values(), facts].flatMap((each) => (each?.kind === 'map' ? [...each.keys.values()] : []));
}
