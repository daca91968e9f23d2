import { groupBy } from '../../group.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import type { Board } from './board.ts';

/** Where parts and cables are on a board, as places in its list of terminals. */
interface Whereabouts {
  /** The terminals of a part, by its name. */
  readonly ofPart: (name: string) => readonly number[];
  /** The terminals at which the cores of a cable end. */
  readonly ofCable: (name: string) => readonly number[];
}

/** Signals are near to few parts and cables, so each is looked for when it is asked for. */
export const whereaboutsOn = keptBy(({ conductors: { frame, terminals, all } }: Board): Whereabouts => {
  // Terminals that only links name come behind those of the circuits.
  const first = frame.terminals.length;
  const others = groupBy(
    Array.from({ length: terminals.length - first }, (_, place) => first + place),
    (place) => partIn(terminals[place] ?? ''),
  );
  return {
    ofPart: (name) => {
      const own = [...(frame.endsIn.get(name)?.values() ?? [])].flat();
      return [...new Set(own)].sort((a, b) => a - b).concat(others.get(name) ?? []);
    },
    ofCable: (name) => placesInCables(all).get(name) ?? [],
  };
});

/** The part that a terminal belongs to, by its name. */
export function partIn(terminal: string): string {
  return terminal.slice(0, terminal.indexOf('.'));
}

const placesInCables = keptBy((all: Board['conductors']['all']): ReadonlyMap<string, readonly number[]> => {
  const places = new Map<string, number[]>();
  for (const { link, a, b } of all) {
    if (link?.cable === undefined) continue;
    const there = places.get(link.cable);
    if (there) there.push(a, b);
    else places.set(link.cable, [a, b]);
  }
  return places;
});
