import { circuitsOf } from '../circuits/solve/solved.ts';
import type { Machine } from '../model/resolve.ts';
import type { Link } from '../model/wiring.ts';
import { fact } from '../reuse/fact.ts';
import { mapEach } from '../reuse/map-each.ts';
import { isSameList } from '../same-list.ts';

/** A link among the ways of a machine, and what it is called in the addresses of values. */
export interface NamedWay {
  readonly link: Link;
  /** By which it is found among the ways. */
  readonly slot: object;
  readonly name: string;
}

const known = new WeakMap<Link, NamedWay>();

/** The links of a machine as ways, in their order; each the same object while all of it is the same. */
export const namedWays = fact(
  'machine',
  (machine: Machine, before: readonly NamedWay[] | undefined): readonly NamedWay[] => {
    const { names } = wireNames(machine);
    const { all, frame } = circuitsOf(machine).solved.board.conductors;
    const named: NamedWay[] = [];
    // The links stand behind what is inside the parts.
    for (let place = 0; place < names.length; place++) {
      const way = all[frame.inside.length + place];
      if (way?.link) named.push(nameWay(way.link, way.slot, names[place] ?? '', before?.[place]));
    }
    return named;
  },
);

/** @param there what stood in its place before, which is the same mostly */
function nameWay(link: Link, slot: object, name: string, there: NamedWay | undefined): NamedWay {
  if (there?.link === link && there.slot === slot && there.name === name) return there;
  const past = known.get(link);
  if (past?.slot === slot && past.name === name) return past;
  const now = { link, slot, name };
  known.set(link, now);
  return now;
}

/** The names of the wires, and what they have them from. */
interface WireNames extends Callings {
  readonly names: readonly string[];
}

/** What links are called after, in their order. */
interface Callings {
  readonly labels: readonly (string | undefined)[];
  /** From where to where each leads: `psu.V+:fuse.1`. */
  readonly ends: readonly string[];
}

const labelsOf = mapEach(({ label }: Link) => label);
const endsOf = mapEach(({ from, to }: Link) => `${from.id}:${to.id}`);
const callingsOf = (links: readonly Link[]): Callings => ({ labels: labelsOf(links), ends: endsOf(links) });

/** Whatever else is typed in a link, the names stay the same list. */
const wireNames = fact('machine', ({ links }: Machine, before: WireNames | undefined): WireNames => {
  const callings = callingsOf(links);
  const isSame =
    before && isSameList(before.labels, callings.labels) && isSameList(before.ends, callings.ends);
  return isSame ? before : { ...callings, names: namesFor(callings) };
});

/**
 * What the wires of a machine are called in the addresses of values: by their label, else by their ends. A number would be
 * another one for every wire below a link that is put in, and with it all their values.
 */
export function nameWires(links: readonly Link[]): ReadonlyMap<Link, string> {
  const names = namesFor(callingsOf(links));
  return new Map(links.map((link, place) => [link, names[place] ?? '']));
}

function namesFor({ labels, ends: all }: Callings): string[] {
  const reserved = new Set(labels);
  const used = new Set<string>();
  const alike = new Map<string, number>();
  return all.map((ends, place) => {
    const label = labels[place];
    // The ends of one link share its label, and only the first of them is called by it.
    if (label !== undefined && !used.has(label)) {
      used.add(label);
      return label;
    }
    let count = (alike.get(ends) ?? 0) + 1;
    let name = count === 1 ? ends : `${ends}:${count}`;
    while (used.has(name) || reserved.has(name)) name = `${ends}:${++count}`;
    alike.set(ends, count);
    used.add(name);
    return name;
  });
}
