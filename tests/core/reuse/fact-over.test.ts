import fc from 'fast-check';
import { expect, it } from 'vitest';
import { factOver } from '../../../server/core/reuse/fact-over.ts';
import { beginWith, type FiguresHost } from './figures-host.ts';

/*
 * A fact over a list of members, each of which reads a figure by its name, while members come, go and move and figures
 * change: what it says is what the list says, and no member is judged that an edit did not concern.
 */

interface Member {
  readonly name: string;
}

interface Host extends FiguresHost {
  readonly members: readonly Member[];
}

const begin = (figures: ReadonlyMap<string, number>, members: readonly Member[], before?: Host): Host =>
  beginWith(figures, { members }, before);

const NAMES = Array.from({ length: 30 }, (_, number) => `n${number}`);

/** Most changes of a figure say nothing here, so that a list can stay the same while a figure changes. */
const sizeOf = (figures: Host['figures'], { name }: Member): string =>
  (figures.get(name) ?? 0) < 25 ? 'small' : 'large';

const edits = fc.array(
  fc.record({
    from: fc.nat(60),
    gone: fc.nat(3),
    come: fc.array(fc.constantFrom(...NAMES), { maxLength: 3 }),
    figures: fc.oneof(
      fc.array(fc.constantFrom(...NAMES), { maxLength: 2 }),
      fc.array(fc.constantFrom(...NAMES), { maxLength: 25 }),
    ),
    isTurned: fc.boolean(),
    isTwice: fc.boolean(),
  }),
  { minLength: 1, maxLength: 8 },
);

it('says what the list says, and judges only what is new or rests on what is another', () => {
  let kept = 0;
  fc.assert(
    fc.property(edits, (list) => {
      const judged: Member[] = [];
      const told = factOver(
        'sums',
        ({ members }: Host) => members,
        ({ figures }: Host, member) => {
          judged.push(member);
          return sizeOf(figures, member);
        },
      );
      let figures = new Map(NAMES.map((name, place) => [name, place]));
      let members: readonly Member[] = Array.from({ length: 60 }, (_, place) => ({
        name: NAMES[place % NAMES.length] ?? '',
      }));
      let host = begin(figures, members);
      let results = told(host);
      for (const { from, gone, come, figures: others, isTurned, isTwice } of list) {
        const past = new Set(members);
        members = members.toSpliced(from, gone, ...come.map((name) => ({ name })));
        // Now and then one stands in the list twice.
        if (isTwice) members = members.toSpliced(from + 2, 0, ...members.slice(from, from + 1));
        if (isTurned)
          members = [...members.slice(0, 20), ...members.slice(20, 30).reverse(), ...members.slice(30)];
        figures = new Map(figures);
        for (const name of others) figures.set(name, ((figures.get(name) ?? 0) + 7) % 31);
        const changed = new Set(others.filter((name) => figures.get(name) !== host.figures.get(name)));
        host = begin(figures, members, host);
        judged.length = 0;
        const now = told(host);
        expect(now).toEqual(members.map((member) => sizeOf(figures, member)));
        const concerned = members.filter((member) => !past.has(member) || changed.has(member.name));
        if (new Set(members).size === members.length) {
          expect(judged).toHaveLength(concerned.length);
          expect(new Set(judged)).toEqual(new Set(concerned));
        }
        const isSame =
          now.length === results.length && now.every((result, place) => result === results[place]);
        if (isSame && concerned.length > 0) kept++;
        if (members.length === results.length && isSame) expect(now).toBe(results);
        results = now;
      }
    }),
    { numRuns: 200 },
  );
  expect(kept).toBeGreaterThan(10);
});

it('knows what it knew when something fails in between', () => {
  const judged: string[] = [];
  const told = factOver(
    'sums',
    ({ members }: Host) => members,
    ({ figures }: Host, { name }) => {
      judged.push(name);
      const figure = figures.get(name) ?? 0;
      if (figure < 0) throw new Error('a fault');
      return figure;
    },
  );
  const members = NAMES.map((name) => ({ name }));
  const figures = new Map(NAMES.map((name, place) => [name, place]));
  const first = begin(figures, members);
  const results = told(first);
  const faulty = begin(new Map([...figures, ['n3', 50], ['n7', -1]]), members.toSpliced(2, 1), first);
  expect(() => told(faulty)).toThrow('a fault');
  const third = begin(figures, members, faulty);
  expect(told(third)).toEqual(results);
});
