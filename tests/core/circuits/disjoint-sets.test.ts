import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DisjointSets } from '../../../server/core/circuits/disjoint-sets.ts';

const NAMES = ['a.1', 'a.2', 'b.1', 'b.2', 'c.1', 'c.2', 'd.1', 'd.2'];
const pairs = fc.array(fc.tuple(fc.constantFrom(...NAMES), fc.constantFrom(...NAMES)), { maxLength: 12 });

/** The sets of names that pairs make, found by spreading; each in the order in which the pairs name them. */
function setsOf(list: readonly (readonly [string, string])[]): string[][] {
  const named = [...new Set(list.flat())];
  const seen = new Set<string>();
  return named.flatMap((start) => {
    if (seen.has(start)) return [];
    const set = new Set([start]);
    for (const name of set) for (const [a, b] of list) if (a === name || b === name) set.add(a).add(b);
    for (const name of set) seen.add(name);
    return [named.filter((name) => set.has(name))];
  });
}

function join(list: readonly (readonly [string, string])[], before?: DisjointSets): DisjointSets {
  const sets = new DisjointSets(before);
  for (const [a, b] of list) sets.join(sets.numberOf(a), sets.numberOf(b));
  return sets;
}

describe('sets of terminals', () => {
  it('are those that the pairs join, in the order in which they are named, whatever was joined before', () => {
    fc.assert(
      fc.property(pairs, pairs, (before, now) => {
        const sets = join(now, join(before));
        for (const set of setsOf(now)) {
          const numbers = new Set(set.map((name) => sets.find(name)));
          expect(numbers.size).toBe(1);
          expect(sets.members([...numbers][0] ?? -1)).toEqual(set);
        }
      }),
    );
  });

  it('keep their number and their list while they are the same', () => {
    fc.assert(
      fc.property(pairs, pairs, (before, more) => {
        const past = join(before);
        const known = new Map(setsOf(before).map((set) => [set.join(' '), past.find(set[0] ?? '')]));
        for (const number of known.values()) past.members(number);
        const sets = join([...before, ...more], past);
        expect(sets.countsLike(past)).toBe(true);
        for (const set of setsOf([...before, ...more])) {
          const number = known.get(set.join(' '));
          if (number === undefined) continue;
          expect(sets.find(set[0] ?? '')).toBe(number);
          expect(sets.members(number)).toBe(past.members(number));
        }
      }),
    );
  });

  it('are as many as there are, also of hundreds of names, more of them in each version', () => {
    let before: DisjointSets | undefined;
    for (let count = 1; count < 400; count += 7) {
      const names = Array.from({ length: count }, (_, each) => `p${each}.1`);
      // All of one remainder by 5 are in one set.
      const list = names.slice(5).map((name, each) => [names[each] ?? '', name] as const);
      before = join(list, before);
      for (const [each, name] of names.entries()) {
        const set = names.filter((_, other) => other % 5 === each % 5);
        expect(before.members(before.find(name)).toSorted()).toEqual(set.toSorted());
      }
    }
  });

  it('have no members where nothing was named', () => {
    const past = join([['a.1', 'a.2']]);
    const sets = join([['b.1', 'b.2']], past);
    expect(sets.countsLike(past)).toBe(true);
    expect(sets.countsLike(join([['a.1', 'a.2']]))).toBe(false);
    expect(sets.members(past.find('a.1'))).toEqual([]);
    expect(sets.members(1000)).toEqual([]);
  });
});
