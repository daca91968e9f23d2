import v8 from 'node:v8';
import vm from 'node:vm';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { flatMapEach, mapEach } from '../../../server/core/reuse/map-each.ts';

v8.setFlagsFromString('--expose-gc');
/** Collects what nothing refers to. */
const collect = vm.runInNewContext('gc') as () => void;

const edits = fc.array(
  fc.record({
    from: fc.nat(40),
    gone: fc.nat(4),
    come: fc.array(fc.nat(), { maxLength: 4 }),
    moved: fc.boolean(),
  }),
  { minLength: 1, maxLength: 10 },
);

it('gives what the members give, each its own, and asks only those that are new', () => {
  let [asked, followed] = [0, 0];
  fc.assert(
    fc.property(edits, (list) => {
      const each = mapEach((member: { readonly number: number }) => {
        asked++;
        return { of: member };
      });
      let members = Array.from({ length: 40 }, (_, number) => ({ number }));
      let results = each(members);
      for (const { from, gone, come, moved } of list) {
        const before = new Map(results.map((result) => [result.of, result]));
        const ends = [members[0], members.at(-1)];
        const fresh = come.map((number) => ({ number }));
        const rest = members.toSpliced(from, gone, ...fresh);
        // What an edit moves elsewhere is not new.
        members = moved ? [...rest.slice(0, 5), ...rest.slice(5).reverse()] : rest;
        asked = 0;
        results = each(members);
        expect(results.map(({ of }) => of)).toEqual(members);
        for (const [place, { of }] of results.entries()) expect(of).toBe(members[place]);
        if (members[0] === ends[0] && members.at(-1) === ends[1]) {
          expect(asked).toBe(fresh.length);
          for (const result of results) expect(before.get(result.of) ?? result).toBe(result);
          followed++;
        }
        expect(each(members)).toBe(results);
      }
    }),
    { numRuns: 200 },
  );
  expect(followed).toBeGreaterThan(100);
});

it('has a result for each place of what stands in a list twice', () => {
  const each = mapEach((member: { readonly name: string }) => ({ of: member }));
  const [a, b, c] = [{ name: 'a' }, { name: 'b' }, { name: 'c' }];
  const [first, , again] = each([a, b, a]);
  expect(again).not.toBe(first);
  const [kept, , put, alsoKept] = each([a, b, c, a]);
  expect([kept, alsoKept]).toEqual([first, again]);
  expect(kept).toBe(first);
  expect(alsoKept).toBe(again);
  expect(put?.of).toBe(c);
});

it('lets go of the lists of before, also where who stood at an end stays among the others', async () => {
  const each = mapEach((member: { readonly number: number }) => ({ of: member }));
  let members = [{ number: 0 }, { number: 1 }];
  const lists: WeakRef<readonly object[]>[] = [];
  for (let number = 2; number < 40; number++) {
    members = [...members, { number }];
    lists.push(new WeakRef(each(members)));
    // What a weak reference refers to lives until the end of its turn.
    await new Promise((done) => setTimeout(done));
  }
  collect();
  await new Promise((done) => setTimeout(done));
  collect();
  expect(lists.filter((list) => list.deref() !== undefined).length).toBeLessThan(5);
  expect(each(members)).toHaveLength(40);
});

it('is nothing of nothing', () => {
  expect(mapEach((member: object) => member)([])).toEqual([]);
});

it('gives one list of lists, the same one while every member gives the same', () => {
  const all = flatMapEach(({ gives }: { readonly gives: readonly number[] }) => gives);
  const [a, b, c] = [{ gives: [1, 2] }, { gives: [] }, { gives: [3] }];
  const whole = all([a, b, c]);
  expect(whole).toEqual([1, 2, 3]);
  expect(all([a, b, c])).toBe(whole);
  expect(all([a, c])).toEqual([1, 2, 3]);
  expect(all([a, { gives: [4] }, c])).toEqual([1, 2, 4, 3]);
  expect(all([])).toEqual([]);
});
