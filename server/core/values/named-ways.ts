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

/** The names of the wires, and the labels by which they have them. */
interface WireNames {
  readonly labels: readonly (string | undefined)[];
  readonly names: readonly string[];
}

const labelsOf = mapEach(({ label }: Link) => label);

/** Whatever else is typed in a link, the names stay the same list. */
const wireNames = fact('machine', ({ links }: Machine, before: WireNames | undefined): WireNames => {
  const labels = labelsOf(links);
  return before && isSameList(before.labels, labels) ? before : { labels, names: namesFor(labels) };
});

/** What the wires of a machine are called in the addresses of values: by their label, else by their number. */
export function nameWires(links: readonly Link[]): ReadonlyMap<Link, string> {
  const names = namesFor(links.map(({ label }) => label));
  return new Map(links.map((link, place) => [link, names[place] ?? '']));
}

function namesFor(all: readonly (string | undefined)[]): string[] {
  const labels = new Set(all);
  const used = new Set<string>();
  return all.map((label, place) => {
    const number = String(place + 1);
    // The ends of one link share its label, and only the first of them is called by it.
    const isFirst = label !== undefined && !used.has(label);
    const name = isFirst ? label : labels.has(number) ? `link-${number}` : number;
    used.add(name);
    return name;
  });
}
