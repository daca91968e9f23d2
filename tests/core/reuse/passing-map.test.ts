import { expect, test } from 'vitest';
import { PassingMap } from '../../../server/core/reuse/passing-map.ts';
import { randomFrom } from '../../support/random.ts';

test('holds what a plain map holds, in the same order, and is made anew now and then', () => {
  const random = randomFrom(7);
  const passing = new PassingMap<number, string>();
  const plain = new Map<number, string>();
  const made = new Set([passing.map]);
  let deleted = 0;
  for (let step = 0; step < 20_000; step++) {
    const key = random.below(800);
    if (random.below(2) === 0) {
      passing.map.set(key, `at ${step}`);
      plain.set(key, `at ${step}`);
    } else {
      passing.delete(key);
      if (plain.delete(key)) deleted++;
    }
    made.add(passing.map);
    if (step % 500 === 0) expect([...passing.map]).toEqual([...plain]);
  }
  expect([...passing.map]).toEqual([...plain]);
  // About 400 keys at once: after a quarter as many have gone, and not before.
  expect(made.size - 1).toBeGreaterThan(deleted / 150);
  expect(made.size - 1).toBeLessThan(deleted / 90);
});

test('what was never there makes nothing anew', () => {
  const passing = new PassingMap<number, string>();
  const { map } = passing;
  for (let key = 0; key < 1000; key++) passing.delete(key);
  expect(passing.map).toBe(map);
});
