import fc from 'fast-check';
import { expect, it } from 'vitest';
import { changedKeys } from '../../../server/core/reuse/changed-keys.ts';
import { PatchedMap } from '../../../server/core/reuse/patched-map.ts';
import { WHOLE } from '../../../server/core/reuse/version.ts';

const KEYS = Array.from({ length: 40 }, (_, place) => `k${place}`);
const changes = fc.array(
  fc.dictionary(fc.constantFrom(...KEYS), fc.nat(5), { minKeys: 1, maxKeys: 6, noNullPrototype: true }),
  { minLength: 1, maxLength: 12 },
);

it('is as if the map had been copied and changed, however often', () => {
  let patched = 0;
  fc.assert(
    fc.property(changes, (list) => {
      let map: ReadonlyMap<string, number> = new Map(KEYS.map((key) => [key, 0]));
      const plain = new Map(map);
      for (const changed of list) {
        const before = map;
        const past = new Map(plain);
        map = PatchedMap.over(map, new Map(Object.entries(changed)));
        for (const [key, value] of Object.entries(changed)) plain.set(key, value);
        if (map instanceof PatchedMap) patched++;
        expect([...map]).toEqual([...plain]);
        expect([...map.keys()]).toEqual(KEYS);
        expect([...map.values()]).toEqual([...plain.values()]);
        expect(map.size).toBe(KEYS.length);
        expect(map.has('k0')).toBe(true);
        expect(map.get('none')).toBeUndefined();
        const different = KEYS.filter((key) => past.get(key) !== plain.get(key));
        expect(new Set(changedKeys(before, map))).toEqual(new Set([WHOLE, ...different]));
      }
    }),
    { numRuns: 300 },
  );
  expect(patched).toBeGreaterThan(300);
});
