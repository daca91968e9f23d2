import { type Machine, partsWithSheets } from '../model/resolve.ts';
import { terminalId } from '../model/terminal-id.ts';
import { fact } from '../reuse/fact.ts';
import type { CircuitAt } from './signals.ts';
import type { Conductor, Conductors } from './solve/conductors.ts';
import { circuitsOf } from './solve/solved.ts';

/** Circuits that conduct in one of their states, between their first end and each of the others. */
const SWITCHING: ReadonlySet<string> = new Set(['contact', 'changeover']);

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

/** Shortest ways from one terminal to all that it reaches. */
export interface Reach {
  /** In the order in which they are reached, nearest first. */
  readonly order: readonly number[];
  /** By terminal: the way that leads to it; undefined at the start. */
  readonly by: ReadonlyMap<number, number | undefined>;
}

/** Gathers the ways of a machine, once for each version of it. */
export const waysOf = fact('machine', listWays);

function listWays(machine: Machine): Ways {
  const { conductors, layout } = circuitsOf(machine).solved.board;
  const joined = joinedWays.get(layout) ?? joinWays(machine, conductors);
  joinedWays.set(layout, joined);
  const { terminals, placeOf, all } = conductors;
  const ways = [...all, ...joined.switching].map((way) => present(machine, way));
  return { terminals, placeOf, all: ways, at: joined.at, unconditional: all.length };
}

/**
 * The ways as a net alone, which stays the same object while nothing is joined otherwise: what is reached from where. Its
 * links and parts may be those of an earlier version.
 */
export const wayNetOf = fact('machine', (machine: Machine): Ways => {
  const { layout } = circuitsOf(machine).solved.board;
  const net = wayNets.get(layout) ?? waysOf(machine);
  wayNets.set(layout, net);
  return net;
});

const wayNets = new WeakMap<object, Ways>();

/** What of the ways stays the same while nothing is joined otherwise. */
interface JoinedWays {
  readonly switching: readonly Way[];
  readonly at: Ways['at'];
}

const joinedWays = new WeakMap<object, JoinedWays>();

function joinWays(machine: Machine, { placeOf, all, at }: Conductors): JoinedWays {
  const switching: Way[] = [];
  const places = at.map((list) => [...list]);
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of sheet.circuits.values()) {
      if (!SWITCHING.has(circuit.kind)) continue;
      const [a, ...others] = circuit.ends.map((end) => placeOf.get(terminalId(part.name, end.text)));
      for (const b of others) {
        if (a === undefined || b === undefined) continue;
        places[a]?.push(all.length + switching.length);
        places[b]?.push(all.length + switching.length);
        switching.push({ id: {}, slot: {}, a, b, ohms: 0, link: undefined, inside: { part, circuit } });
      }
    }
  }
  return { switching, at: places };
}

/** A way inside a part as the present version of the machine has it, since the text of the part may have changed. */
function present(machine: Machine, way: Way): Way {
  if (!way.inside) return way;
  const { part, circuit } = way.inside;
  const now = machine.parts.get(part.name) ?? part;
  return now === part ? way : { ...way, inside: { part: now, circuit } };
}

/** By what stays the same while nothing is joined otherwise. */
const reaches = new WeakMap<Ways['at'], Map<string, Reach>>();

/**
 * Spreads from a terminal, nearest first, so that of several ways the one with the fewest steps is taken.
 * @param closed whether contacts count as closed; without them only what conducts in every state
 */
export function reachOf(ways: Ways, start: number, closed = true): Reach {
  const known = reaches.get(ways.at) ?? new Map<string, Reach>();
  reaches.set(ways.at, known);
  const key = `${start} ${closed}`;
  let reach = known.get(key);
  if (!reach) {
    reach = spread(ways, start, closed);
    known.set(key, reach);
  }
  return reach;
}

function spread({ all, at, unconditional }: Ways, start: number, closed: boolean): Reach {
  const by = new Map<number, number | undefined>([[start, undefined]]);
  const order = [start];
  // The list grows while it is walked through, which makes this a breadth-first search.
  for (const terminal of order) {
    for (const place of at[terminal] ?? []) {
      const way = all[place];
      if (!way || (!closed && place >= unconditional)) continue;
      const far = way.a === terminal ? way.b : way.a;
      if (by.has(far)) continue;
      by.set(far, place);
      order.push(far);
    }
  }
  return { order, by };
}

const paths = new WeakMap<Reach, Map<number, readonly number[]>>();

/**
 * The ways from the start of a reach to a terminal, in order from the start; undefined where it does not get there. The
 * same reach gives the same list.
 */
export function pathTo(ways: Ways, reach: Reach, end: number): readonly number[] | undefined {
  if (!reach.by.has(end)) return undefined;
  const known = paths.get(reach) ?? new Map<number, readonly number[]>();
  paths.set(reach, known);
  let path = known.get(end);
  if (!path) {
    path = followBack(ways, reach, end);
    known.set(end, path);
  }
  return path;
}

function followBack({ all }: Ways, { by }: Reach, end: number): number[] {
  const path: number[] = [];
  let at = end;
  for (let place = by.get(at); place !== undefined; place = by.get(at)) {
    path.push(place);
    const way = all[place];
    if (!way) break;
    at = way.a === at ? way.b : way.a;
  }
  return path.reverse();
}

const slots = new WeakMap<readonly number[], readonly object[]>();

/**
 * The slots of the ways from the start of a reach to a terminal, which name the ways in other versions as well; undefined
 * where it does not get there. The same reach gives the same list.
 */
export function slotsTo(ways: Ways, reach: Reach, end: number): readonly object[] | undefined {
  const path = pathTo(ways, reach, end);
  if (!path) return undefined;
  let list = slots.get(path);
  if (!list) {
    list = path.flatMap((place) => ways.all[place]?.slot ?? []);
    slots.set(path, list);
  }
  return list;
}

/** The place of one end of a circuit. */
export function placeOfEnd(
  { placeOf }: Ways,
  { part, circuit }: CircuitAt,
  index: number,
): number | undefined {
  return placeOf.get(terminalId(part.name, circuit.ends[index]?.text ?? ''));
}
