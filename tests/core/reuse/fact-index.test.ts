import fc from 'fast-check';
import { expect, it } from 'vitest';
import { factGroups, factIndex } from '../../../server/core/reuse/fact-index.ts';
import { factOver } from '../../../server/core/reuse/fact-over.ts';
import { Version } from '../../../server/core/reuse/version.ts';
import { isSameList } from '../../../server/core/same-list.ts';

interface Member {
  readonly keys: readonly number[];
  readonly says: number;
}

interface Lists {
  readonly version: Version;
  readonly list: readonly Member[];
}

function begin(list: readonly Member[], before?: Lists): Lists {
  const host = { version: new Version(before?.version), list };
  host.version.hosts.set('lists', host);
  return host;
}

const KEYS = [0, 1, 2, 3, 4, 5, 6, 7];
const member = fc.record({ keys: fc.array(fc.constantFrom(...KEYS), { maxLength: 3 }), says: fc.nat(3) });
const lists = fc.array(fc.uniqueArray(fc.nat(19), { maxLength: 20 }), { minLength: 2, maxLength: 8 });

function groupsOf(list: readonly Member[], key: number): Member[] {
  return list.filter(({ keys }) => keys.includes(key));
}

it('tells what the list says, whatever came, went or moved, and what rests on a key is asked again when that changed', () => {
  let kept = 0;
  fc.assert(
    fc.property(fc.array(member, { minLength: 20, maxLength: 20 }), lists, (pool, choices) => {
      const inGroup = factGroups(
        'lists',
        ({ list }: Lists) => list,
        ({ keys }) => keys,
      );
      const sums = factIndex(
        'lists',
        ({ list }: Lists) => list,
        ({ keys }) => keys,
        (members) => ({ sum: members.reduce((sum, { says }) => sum + says, 0) }),
        (a, b) => a.sum === b.sum,
      );
      let asked = 0;
      const told = factOver(
        'lists',
        () => KEYS,
        (host: Lists, key) => {
          asked++;
          return `${key} ${sums.get(host, key)?.sum} ${inGroup.get(host, key)?.length}`;
        },
      );
      let host: Lists | undefined;
      for (const choice of choices) {
        const past = host;
        const pastSums = past && KEYS.map((key) => sums.get(past, key));
        const pastGroups = past && KEYS.map((key) => inGroup.get(past, key));
        const now = begin(
          choice.flatMap((place) => pool[place] ?? []),
          past,
        );
        host = now;
        asked = 0;
        const expected = KEYS.map((key) => groupsOf(now.list, key));
        expect(told(now)).toEqual(
          expected.map((group, key) => {
            const sum = group.length > 0 ? group.reduce((all, { says }) => all + says, 0) : undefined;
            return `${key} ${sum} ${group.length > 0 ? group.length : undefined}`;
          }),
        );
        expect(KEYS.map((key) => inGroup.get(now, key) ?? [])).toEqual(expected);
        const others = KEYS.filter(
          (key) => pastSums?.[key] !== sums.get(now, key) || pastGroups?.[key] !== inGroup.get(now, key),
        );
        if (!past) continue;
        expect(asked).toBe(others.length);
        // What says the same stays the same object.
        for (const key of KEYS) {
          const [was, is] = [pastGroups?.[key] ?? [], inGroup.get(now, key) ?? []];
          if (isSameList(was, is)) expect(pastGroups?.[key]).toBe(inGroup.get(now, key));
          if (pastSums?.[key]?.sum === sums.get(now, key)?.sum)
            expect(pastSums?.[key]).toBe(sums.get(now, key));
        }
        kept += KEYS.length - others.length;
      }
    }),
    { numRuns: 300 },
  );
  expect(kept).toBeGreaterThan(100);
});
