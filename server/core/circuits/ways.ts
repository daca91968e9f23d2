import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { LastPlaces } from '../reuse/last-places.ts';
import { countSameEndsBy, type SameEnds } from '../same-ends.ts';
import { frameIn } from './places.ts';
import type { Conductor, Conductors, Slot } from './solve/conductors.ts';
import type { Frame } from './solve/frame.ts';
import { circuitsOf } from './solve/solved.ts';

/** One step that a current can take: a link, what is common inside a part, a fuse, or a contact, which counts as closed. */
export type Way = Conductor;

/** All ways between the terminals of a machine. */
export interface Ways {
  readonly terminals: readonly string[];
  readonly placeOf: Pick<ReadonlyMap<string, number>, 'get'>;
  readonly all: readonly Way[];
  /** By terminal: places in `all`. */
  readonly at: readonly (readonly number[])[];
  /** How many of them conduct in every state; contacts come after them. */
  readonly unconditional: number;
}

/**
 * Shortest ways from one terminal to all that it reaches. It names ways by their slots and knows nothing of their places,
 * so it holds in every version in which nothing that it reaches is joined otherwise.
 */
export interface Reach {
  /** In the order in which they are reached, nearest first. */
  readonly order: readonly number[];
  /** By terminal: the last step to it; undefined at the start. */
  readonly by: ReadonlyMap<number, Step | undefined>;
}

/** From one terminal to the next. */
interface Step {
  readonly slot: Slot;
  readonly from: number;
}

/**
 * The ways as a net alone, which stays the same object while nothing is joined otherwise: what is reached from where. Its
 * links and parts may be those of an earlier version.
 */
export const wayNetOf = fact('machine', (machine: Machine, before: Ways | undefined): Ways => {
  const { conductors, layout } = circuitsOf(machine).solved.board;
  const known = wayNets.get(layout);
  if (known) return known;
  const { terminals, placeOf, all, frame } = conductors;
  const ways = {
    terminals,
    placeOf,
    all: all.concat(frame.contacts),
    at: joinWays(conductors),
    unconditional: all.length,
  };
  wayNets.set(layout, ways);
  const same = before ? countSameEndsBy(before.all, ways.all, hasSameSlot) : NOTHING_SAME;
  noteSlots(ways, same);
  if (before) keepReaches(before, ways, same);
  return ways;
});

/** All ways as they stand in this version of a machine. */
export const waysOf = fact('machine', (machine: Machine): Ways => {
  const { all, frame } = circuitsOf(machine).solved.board.conductors;
  const { inside, contacts } = waysInside(machine);
  return { ...wayNetOf(machine), all: inside.concat(all.slice(frame.inside.length), contacts) };
});

/** The ways inside the parts of a machine, which do not depend on its links. */
const waysInside = fact(
  'machine',
  (machine: Machine, before?: Pick<Frame, 'inside' | 'contacts'>): Pick<Frame, 'inside' | 'contacts'> => {
    const { inside, contacts } = frameIn(machine);
    return {
      inside: inside.map((way, place) => present(machine, way, before?.inside[place])),
      contacts: contacts.map((way, place) => present(machine, way, before?.contacts[place])),
    };
  },
);

/** The fuses and breakers of a machine. */
export const fusesOf = fact('machine', (machine: Machine): readonly Way[] =>
  waysInside(machine).inside.filter(({ inside }) => inside?.circuit.kind === 'fuse'),
);

/** By the layout of the wiring: the ways as they were when it came to be. */
const wayNets = new WeakMap<object, Ways>();

const NOTHING_SAME: SameEnds = [0, 0];
export const hasSameSlot = (was: Way, is: Way): boolean => was.slot === is.slot;

/** By terminal: its conductors, and the contacts behind all of these. */
function joinWays({ all, at, frame }: Conductors): Ways['at'] {
  const joined = at.slice();
  frame.contacts.forEach(({ a, b }, index) => {
    const way = all.length + index;
    joined[a] = (joined[a] ?? []).concat(way);
    joined[b] = (joined[b] ?? []).concat(way);
  });
  return joined;
}

/**
 * A way inside a part as the present version of the machine has it, since the text of the part may have changed.
 * @param before what stood in its place in the version before
 */
function present(machine: Machine, way: Way, before: Way | undefined): Way {
  if (!way.inside) return way;
  const { part, circuit } = way.inside;
  const now = machine.parts.get(part.name) ?? part;
  if (now === part) return way;
  return before?.slot === way.slot && before.inside?.part === now
    ? before
    : { ...way, inside: { part: now, circuit } };
}

/** What was reached from where, by the start: with contacts closed, and over what conducts in every state. */
interface Reaches {
  readonly closed: Map<number, Reach>;
  readonly always: Map<number, Reach>;
}

/** By what stays the same while nothing is joined otherwise. */
const reaches = new WeakMap<Ways['at'], Reaches>();

/** What was reached so far, by the start; more is put there when it is asked for. */
export function reachesIn({ at }: Ways, closed: boolean): Map<number, Reach> {
  let known = reaches.get(at);
  if (!known) {
    known = { closed: new Map(), always: new Map() };
    reaches.set(at, known);
  }
  return closed ? known.closed : known.always;
}

/** Takes over what was reached where nothing is joined otherwise: a step that came or went would touch it at both ends. */
function keepReaches(past: Ways, present: Ways, same: SameEnds): void {
  const touched = endsOfOthers(past.all, present.all, same);
  const known = reaches.get(past.at);
  if (!known) return;
  const ends = [...touched];
  const untouched = (some: ReadonlyMap<number, Reach>) => {
    const kept = new Map<number, Reach>();
    some.forEach((reach, start) => {
      if (!ends.some((end) => reach.by.has(end))) kept.set(start, reach);
    });
    return kept;
  };
  reaches.set(present.at, { closed: untouched(known.closed), always: untouched(known.always) });
}

/** The ends of the ways that only one of two versions has. */
export function endsOfOthers(
  past: readonly Way[],
  present: readonly Way[],
  [start, end]: SameEnds,
): ReadonlySet<number> {
  const [was, is] = [past, present].map((ways) => ways.slice(start, ways.length - end));
  const lacks = (some: readonly Way[] = [], others: readonly Way[] = []) => {
    const slots = new Set(others.map(({ slot }) => slot));
    return some.flatMap(({ slot, a, b }) => (slots.has(slot) ? [] : [a, b]));
  };
  return new Set([...lacks(was, is), ...lacks(is, was)]);
}

/**
 * Spreads from a terminal, nearest first, so that of several ways the one with the fewest steps is taken.
 * @param closed whether contacts count as closed; without them only what conducts in every state
 */
export function reachOf(ways: Ways, start: number, closed = true): Reach {
  const some = reachesIn(ways, closed);
  let reach = some.get(start);
  if (!reach) {
    reach = spread(ways, start, closed);
    some.set(start, reach);
  }
  return reach;
}

function spread({ all, at, unconditional }: Ways, start: number, closed: boolean): Reach {
  const by = new Map<number, Step | undefined>([[start, undefined]]);
  const order = [start];
  // The list grows while it is walked through, which makes this a breadth-first search.
  for (const terminal of order) {
    for (const place of at[terminal] ?? []) {
      const way = all[place];
      if (!way || (!closed && place >= unconditional)) continue;
      const far = way.a === terminal ? way.b : way.a;
      if (by.has(far)) continue;
      by.set(far, { slot: way.slot, from: terminal });
      order.push(far);
    }
  }
  return { order, by };
}

const paths = new WeakMap<Reach, Map<number, readonly object[]>>();

/**
 * The slots of the ways from the start of a reach to a terminal, in order from the start; undefined where it does not get
 * there. The same reach gives the same list.
 */
export function slotsTo(reach: Reach, end: number): readonly object[] | undefined {
  if (!reach.by.has(end)) return undefined;
  const known = paths.get(reach) ?? new Map<number, readonly object[]>();
  paths.set(reach, known);
  let path = known.get(end);
  if (!path) {
    path = followBack(reach, end);
    known.set(end, path);
  }
  return path;
}

function followBack({ by }: Reach, end: number): object[] {
  const path: object[] = [];
  for (let step = by.get(end); step; step = by.get(step.from)) path.push(step.slot);
  return path.reverse();
}

const places = new LastPlaces<object>();

/** Notes where ways stand, but for those at both ends that stand as in the version before. */
function noteSlots({ all }: Ways, [start, end]: SameEnds): void {
  for (let place = start; place < all.length - end; place++) {
    const way = all[place];
    if (way) places.note(way.slot, place);
  }
}

/** A way by its slot, as these ways have it. */
export function wayAt({ all }: Ways, slot: object): Way | undefined {
  const isAt = (place: number): boolean => all[place]?.slot === slot;
  return all[places.find(slot, isAt, () => all.findIndex((_, place) => isAt(place)))];
}
