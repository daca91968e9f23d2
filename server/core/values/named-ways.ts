import { waysOf } from '../circuits/ways.ts';
import type { Machine } from '../model/resolve.ts';
import type { Link } from '../model/wiring.ts';
import { fact } from '../reuse/fact.ts';

/** A link among the ways of a machine, and what it is called in the addresses of values. */
export interface NamedWay {
  readonly link: Link;
  /** By which it is found among the ways. */
  readonly slot: object;
  readonly name: string;
}

const known = new WeakMap<Link, NamedWay>();

/** The links of a machine that are ways, in the order of these; each the same object while all of it is the same. */
export const namedWays = fact('machine', (machine: Machine): readonly NamedWay[] => {
  const names = nameWires(machine.links);
  return waysOf(machine).all.flatMap(({ link, slot }) => {
    const name = link && names.get(link);
    if (!link || name === undefined) return [];
    const before = known.get(link);
    if (before?.slot === slot && before.name === name) return [before];
    const now = { link, slot, name };
    known.set(link, now);
    return [now];
  });
});

/** What the wires of a machine are called in the addresses of values: by their label, else by their number. */
export function nameWires(links: readonly Link[]): ReadonlyMap<Link, string> {
  const labels = new Set(links.flatMap(({ label }) => label ?? []));
  const used = new Set<string>();
  return new Map(
    links.map((link, place) => {
      const { label } = link;
      const number = place + 1;
      // The ends of one link share its label, and only the first of them is called by it.
      const isFirst = label !== undefined && !used.has(label);
      const name = isFirst ? label : labels.has(String(number)) ? `link-${number}` : String(number);
      used.add(name);
      return [link, name];
    }),
  );
}
