import { describe, expect, it } from 'vitest';
import type { Reads } from '../../../server/core/circuits/solve/element.ts';
import { judge, type Level } from '../../../server/core/circuits/solve/reading.ts';

/* What an input makes of a value, at its thresholds and beside them. */

const PLAIN: Reads = { unit: 'V', eitherWay: false, on: 15, off: 5, below: false, most: 30 };

it.each<[string, Partial<Reads>, number, Level, number]>([
  ['on at its threshold', {}, 15, 'on', 0],
  ['on above it', {}, 24, 'on', 9],
  ['off at its threshold', {}, 5, 'off', 0],
  ['off below it, also below nothing', {}, -3, 'off', 8],
  ['between, nearer to on', {}, 14, 'uncertain', -1],
  ['between, nearer to off', {}, 7, 'uncertain', -2],
  ['on below where it is pulled up', { on: 5, off: 15, below: true }, 3, 'on', 2],
  ['off above where it is pulled up', { on: 5, off: 15, below: true }, 24, 'off', 9],
  ['between where it is pulled up', { on: 5, off: 15, below: true }, 9, 'uncertain', -4],
  ['on where it is turned round and does not care', { eitherWay: true }, -20, 'on', 5],
  ['off where it is turned round and does care', {}, -20, 'off', 25],
])('an input is %s', (_, how, value, level, margin) => {
  expect(judge(value, { ...PLAIN, ...how })).toMatchObject({ level, margin, trouble: undefined });
});

it.each([
  ['on', undefined, 5],
  ['off', 15, undefined],
])('without its threshold for %s its level is not known', (_, on, off) => {
  expect(judge(24, { ...PLAIN, on, off })).toMatchObject({ value: 24, level: 'unknown', margin: undefined });
});

describe('what an input bears', () => {
  it.each([
    [30, false],
    [30.1, true],
    [-30.1, true],
  ])('%d V on 30 V is too much: %s', (value, isTooMuch) => {
    expect(judge(value, PLAIN).isTooMuch).toBe(isTooMuch);
    expect(judge(value, { ...PLAIN, on: undefined }).isTooMuch).toBe(isTooMuch);
  });
  it('is as much as there is where nothing is said of it', () => {
    expect(judge(1e6, { ...PLAIN, most: undefined }).isTooMuch).toBe(false);
  });
});
