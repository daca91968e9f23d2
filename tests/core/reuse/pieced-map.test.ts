import fc from 'fast-check';
import { expect, it } from 'vitest';
import { changedKeys } from '../../../server/core/reuse/changed-keys.ts';
import { PiecedMap } from '../../../server/core/reuse/pieced-map.ts';
import { WHOLE } from '../../../server/core/reuse/version.ts';

const itself = <M>(piece: M): M => piece;

type Pieces = readonly ReadonlyMap<string, number>[];

/** Pieces are exchanged from a place on: so many go, and pieces with so many keys come. */
const exchanges = fc.array(
  fc.record({ from: fc.nat(60), gone: fc.nat(3), come: fc.array(fc.nat(3), { maxLength: 3 }) }),
  { minLength: 1, maxLength: 12 },
);

/** Now and then keys come back that went before. */
const freshPieces = (sizes: readonly number[], taken: ReadonlySet<string>, random: number): Pieces => {
  const names = Array.from({ length: 400 }, (_, place) => `k${(place * 7 + random) % 400}`);
  const free = names.filter((name) => !taken.has(name));
  return sizes.map((size) => new Map(free.splice(0, size).map((name) => [name, random])));
};

it('is as if the pieces had been put together anew, however often some were exchanged', () => {
  let patched = 0;
  fc.assert(
    fc.property(exchanges, (list) => {
      let pieces = freshPieces(new Array<number>(60).fill(2), new Set(), 0);
      let map = PiecedMap.over(pieces, itself);
      for (const [round, { from, gone, come }] of list.entries()) {
        const [before, past] = [map, new Map(map)];
        const taken = new Set(pieces.flatMap((piece) => [...piece.keys()]));
        pieces = pieces.toSpliced(from, gone, ...freshPieces(come, taken, round + 1));
        const plain = new Map(pieces.flatMap((piece) => [...piece]));
        map = PiecedMap.over(pieces, itself, map);
        if (map instanceof PiecedMap && map.patch.size > 0) patched++;
        expect([...map]).toEqual([...plain]);
        expect([...map.keys()]).toEqual([...plain.keys()]);
        expect([...map.values()]).toEqual([...plain.values()]);
        const walked: [string, number][] = [];
        map.forEach((value, key) => {
          walked.push([key, value]);
        });
        expect(walked).toEqual([...plain]);
        expect(map.size).toBe(plain.size);
        for (const key of [...past.keys(), 'none']) expect(map.get(key)).toBe(plain.get(key));
        const different = [...new Set([...past.keys(), ...plain.keys()])].filter(
          (key) => past.get(key) !== plain.get(key),
        );
        const changed = changedKeys(before, map);
        expect(different.filter((key) => !changed.has(key))).toEqual([]);
        expect(new Set(changed)).toEqual(new Set([WHOLE, ...different]));
      }
    }),
    { numRuns: 300 },
  );
  expect(patched).toBeGreaterThan(300);
});

it('stays the same object while the pieces are the same', () => {
  const pieces = freshPieces([2, 2, 2], new Set(), 0);
  const map = PiecedMap.over(pieces, itself);
  expect(PiecedMap.over([...pieces], itself, map)).toBe(map);
});

it('lets the last piece count where two have a key in common, at first and after an exchange', () => {
  const [a, b] = [new Map([['k', 1]]), new Map([['k', 2]])];
  expect([...PiecedMap.over([a, b], itself)]).toEqual([['k', 2]]);
  const others = freshPieces(new Array<number>(30).fill(1), new Set(['k']), 3);
  const map = PiecedMap.over([a, ...others], itself);
  expect([...PiecedMap.over([a, ...others, b], itself, map)]).toEqual([
    ['k', 2],
    ...others.flatMap((each) => [...each]),
  ]);
});
