import type { Machine } from '../model/resolve.ts';
import { fact, keepIf } from '../reuse/fact.ts';
import { noteRead, unrecorded } from '../reuse/recording.ts';
import type { Evaluated, Version } from '../reuse/version.ts';
import { placeOfEnd } from './places.ts';
import type { CircuitAt } from './signals.ts';
import { type Reach, reachesIn, reachOf, wayNetOf } from './ways.ts';

/*
 * What is reached from one terminal, of which only that is noted: what rests on it holds until something that it reaches is
 * joined otherwise. A reach names terminals by their places, and who wants to know what stands there has to ask.
 */

const fromClosed = askFrom(true);
const fromAlways = askFrom(false);

/**
 * What is reached from the place of a terminal.
 * @param closed whether contacts count as closed; without them only what conducts in every state
 */
export function reachFrom(machine: Machine, start: number, closed = true): Reach {
  return (closed ? fromClosed : fromAlways)(machine, start);
}

/** What is reached from one end of a circuit. */
export function reachFromEnd(
  machine: Machine,
  at: CircuitAt,
  index: number,
  closed = true,
): Reach | undefined {
  const start = placeOfEnd(machine, at, index);
  return start === undefined ? undefined : reachFrom(machine, start, closed);
}

function askFrom(closed: boolean): (machine: Machine, start: number) => Reach {
  const reachesOf = fact(
    'machine',
    (machine: Machine, before: ReadonlyMap<number, Reach> | undefined): ReadonlyMap<number, Reach> => {
      const now = reachesIn(wayNetOf(machine), closed);
      if (before && before !== now) machine.version.noteChanged(self, lostOf(before, now));
      return now;
    },
    // Two may hold the same so far, and only the newer one is filled from now on.
    keepIf<ReadonlyMap<number, Reach>>(Object.is),
  );
  /** Whoever asks for one reach has all of them compared with those of the version before. */
  const netIn = (version: Version) =>
    unrecorded(() => {
      const machine = version.hosts.get('machine') as Machine;
      reachesOf(machine);
      return wayNetOf(machine);
    });
  const self: Evaluated = {
    evaluate: (version, start) => reachOf(netIn(version), start as number, closed),
    changedKeys: (version) => {
      netIn(version);
      return version.notedChanges(self) ?? NOTHING;
    },
  };
  return ({ version }, start) => {
    const reach = reachOf(netIn(version), start, closed);
    noteRead(version, self, start, reach);
    return reach;
  };
}

const NOTHING: ReadonlySet<number> = new Set();

/** The starts from which something else is reached now. */
function lostOf(before: ReadonlyMap<number, Reach>, now: ReadonlyMap<number, Reach>): ReadonlySet<number> {
  const lost = new Set<number>();
  for (const [start, reach] of before) if (now.get(start) !== reach) lost.add(start);
  return lost;
}
