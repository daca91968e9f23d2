import { describe, expect, it } from 'vitest';
import { sampleOf, testsFor } from '../mutation/choose.ts';
import type { Watched } from '../mutation/messages.ts';
import type { Mutant } from '../mutation/mutants.ts';
import { intervalOf } from '../mutation/score.ts';
import { randomFrom } from '../support/random.ts';

const mutants: readonly Mutant[] = Array.from({ length: 50 }, (_, index) => ({
  id: String(index),
  file: 'server/core/units/span.ts',
  line: index + 1,
  column: 1,
  kind: 'BooleanLiteral',
  original: 'true',
  replacement: 'false',
  place: {
    file: 'server/core/units/span.ts',
    start: { line: index, column: 0 },
    end: { line: index, column: 4 },
  },
  key: `key ${index}`,
}));

describe('the interval of a share', () => {
  // Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998), table I, method 3.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i', (hits, sample, from, to) => {
    const interval = intervalOf(hits, sample, Number.MAX_SAFE_INTEGER);
    expect(interval[0]).toBeCloseTo(from, 4);
    expect(interval[1]).toBeCloseTo(to, 4);
  });

  it('is narrower where the sample is much of the whole, and none where it is all', () => {
    const width = (whole: number) => {
      const [from, to] = intervalOf(80, 100, whole);
      return to - from;
    };
    expect(width(120)).toBeLessThan(width(1000));
    expect(intervalOf(80, 100, 100)).toEqual([0.8, 0.8]);
  });
});

describe('the sample', () => {
  it('is the same for the same seed, without repeats, and everything where there is no more', () => {
    const ids = (size: number, seed: number) => sampleOf(mutants, size, randomFrom(seed)).map(({ id }) => id);
    expect(ids(20, 1)).toEqual(ids(20, 1));
    expect(ids(20, 1)).not.toEqual(ids(20, 2));
    expect(new Set(ids(20, 1)).size).toBe(20);
    expect(new Set(ids(80, 1)).size).toBe(50);
  });

  it('holds each mutant about as often as any other', () => {
    const random = randomFrom(1);
    const counts = new Map<string, number>();
    for (let round = 0; round < 2000; round++)
      for (const { id } of sampleOf(mutants, 10, random)) counts.set(id, (counts.get(id) ?? 0) + 1);
    expect(counts.size).toBe(50);
    // 400 expected, with a standard deviation of 18.
    for (const count of counts.values()) expect(Math.abs(count - 400)).toBeLessThan(90);
  });
});

describe('the tests that a mutant is tried with', () => {
  const [mutant] = mutants;
  if (!mutant) throw new Error('no mutant');
  const watched = (name: string, rest: Partial<Watched>): Watched => ({
    id: name,
    file: 'tests/core/units/unit.test.ts',
    name,
    duration: 1,
    loading: 10,
    hits: {},
    loaded: {},
    files: [mutant.file],
    ...rest,
  });
  const chosen = (tests: readonly Watched[]) => testsFor(mutant, tests).map(({ id }) => id);

  it('are those that pass it, the nearest of a file first', () => {
    const tests = [
      watched('passes others', { hits: { 7: 1 } }),
      watched('runs through much', { hits: { 0: 1 }, files: [mutant.file, 'a.ts', 'b.ts'] }),
      watched('runs through it alone', { hits: { 0: 3 } }),
      watched('is named like a span', { hits: { 0: 1 }, files: [mutant.file, 'a.ts', 'b.ts'] }),
      watched('loads it, and compares what it computed then', { loaded: { 0: 1 }, files: [] }),
      watched('loads others', { loaded: { 1: 1 }, files: [] }),
    ];
    expect(chosen(tests)).toEqual([
      'is named like a span',
      'runs through it alone',
      'runs through much',
      'loads it, and compares what it computed then',
    ]);
  });

  it('begin with the file that is soonest done, loading and all', () => {
    const tests = [
      watched('takes long', { hits: { 0: 1 }, file: 'a.test.ts', duration: 100 }),
      watched('loads long', { hits: { 0: 1 }, file: 'b.test.ts', loading: 80 }),
      watched('is one of many', { hits: { 0: 1 }, file: 'c.test.ts', duration: 30 }),
      watched('is another of many', { hits: { 0: 1 }, file: 'c.test.ts', duration: 30 }),
      watched('is short', { hits: { 0: 1 }, file: 'd.test.ts' }),
    ];
    expect(chosen(tests)).toEqual([
      'is short',
      'is one of many',
      'is another of many',
      'loads long',
      'takes long',
    ]);
  });

  it('are not more than 150 of one file, however many pass it', () => {
    const many = Array.from({ length: 200 }, (_, index) => watched(`test ${index}`, { hits: { 0: 1 } }));
    expect(chosen([...many, watched('elsewhere', { hits: { 0: 1 }, file: 'a.test.ts' })])).toHaveLength(151);
  });
});
