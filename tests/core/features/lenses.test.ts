import { expect, test } from 'vitest';
import { analyseExample, fettle } from './example.ts';

const analysis = analyseExample();
const lenses = fettle.lenses(analysis);
const above = (name: string) => lenses.find(({ from, to }) => analysis.tree.text.slice(from, to) === name);

test('axes have their scale, their top feed with its limit, and what torque is left', () => {
  expect(above('X')?.kind).toBe('axes');
  expect(above('X')?.title).toMatch(/^160 \/mm · top feed [\d.]+ mm\/min \([a-z -]+\) · torque × [\d.]+$/);
  expect(above('A')?.title).toMatch(/^320 \/deg · top feed [\d.]+ rpm/);
});

test('supplies say what they feed, loads what they get, and other parts nothing', () => {
  expect(above('motor-psu')?.title).toMatch(/feeds [\d.]+ A · [\d.]+ % of its current$/);
  expect(above('drive-x')?.title).toMatch(/^gets 44 V/);
  expect(above('near-x')).toBeUndefined();
});

test('spindle and handwheel have their headline too', () => {
  expect(above('spindle')?.title).toBe(
    'top speed 24000 rpm · 0.4167 V for 1000 rpm · waits 1 s longer than the ramp',
  );
  expect(above('handwheel')?.title).toBe('×1: 12 mm/min · ×10: 120 mm/min · ×100: 1200 mm/min');
});

test('a click leads to the thing itself in the summary', () => {
  const idOf = (name: string) => fettle.idAt(analysis, above(name)?.opens ?? -1);
  expect(idOf('X')).toBe('axis:X');
  expect(idOf('motor-psu')).toBe('part:motor-psu');
  expect(idOf('spindle')).toBe('part:converter');
  expect(idOf('handwheel')).toBe('part:wheel');
});

test('a sheet and an empty machine have none', () => {
  expect(fettle.lenses(fettle.analyse('x.part.yaml', 'part: X\nclass: drive\n'))).toEqual([]);
  expect(fettle.lenses(fettle.analyse('x.machine.yaml', ''))).toEqual([]);
});
