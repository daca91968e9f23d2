import type { MachineAnalysis } from '../../analysis.ts';
import { placeOfEnd, placeOfTerminal } from '../../circuits/places.ts';
import { reachFrom } from '../../circuits/reach-from.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { fusesOf, type Reach } from '../../circuits/ways.ts';
import { MAINS, type Machine, mainsTerminals } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';
import { factIndex } from '../../reuse/fact-index.ts';
import { factOver } from '../../reuse/fact-over.ts';
import { loadWays } from '../../values/wire-draws.ts';

/** A fuse or breaker in the way of a current. */
export interface Fuse {
  readonly at: CircuitAt;
  /** In A; NaN where its sheet does not say. */
  readonly rating: number;
}

/** What limits the current that a source can drive into a conductor. */
export interface Guard {
  /** Undefined for the mains, of which only what stands in the definition is known. */
  readonly supply: CircuitAt | undefined;
  /** What the supply gives at most, in A; undefined where its sheet does not say. */
  readonly limit: number | undefined;
  /** The smallest fuse on the way; undefined where there is none. */
  readonly fuse: Fuse | undefined;
}

/** The links that one source feeds, by the slot of the way, with what stands between it and them. */
type Guards = ReadonlyMap<object, Guard>;

/** By source: a supply, or a live terminal of the mains. */
const guardsOfEach = factOver(
  'analysis',
  ({ machine }: MachineAnalysis): readonly (CircuitAt | string)[] => [
    ...circuitsOfKind(machine, 'power-out'),
    ...mainsTerminals(machine).filter((terminal) => /^L/.test(terminal)),
  ],
  ({ machine }: MachineAnalysis, source): Guards => {
    if (typeof source === 'string') {
      const start = placeOfTerminal(machine, MAINS, source);
      return guardsFrom(machine, start, { supply: undefined, limit: undefined, fuse: undefined });
    }
    const limit = source.circuit.figures.quantity('current')?.value.value;
    return guardsFrom(machine, placeOfEnd(machine, source, 0), { supply: source, limit, fuse: undefined });
  },
);

/**
 * What limits the current in a link, by the slot of the way. Of several sources, and of several loads that share a return,
 * the least limited counts.
 */
export function guardAt(analysis: MachineAnalysis, slot: object): Guard | undefined {
  return liveGuardAt.get(analysis, slot) ?? returnGuardAt.get(analysis, slot);
}

/** What stands between a link and the plus (or live) of the source that feeds it. */
const liveGuardAt = guardIndex(guardsOfEach);

/** In a short circuit at a load, its return carries what comes through the last fuse before the load; of two alike that is the later. */
const guardsOfReturns = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => loadWays(machine),
  (analysis: MachineAnalysis, { path }): Guards => {
    const live = path.flatMap((slot) => liveGuardAt.get(analysis, slot) ?? []);
    const [first, ...others] = live;
    if (!first) return new Map();
    const last = others.reduce((a, b) => (mostThrough(b) <= mostThrough(a) ? b : a), first);
    const returning = path.filter((slot) => !liveGuardAt.get(analysis, slot));
    return new Map(returning.map((slot) => [slot, last]));
  },
);

const returnGuardAt = guardIndex(guardsOfReturns);

/** By the slot: the least limiting of several guards. */
function guardIndex(listOf: (analysis: MachineAnalysis) => readonly Guards[]) {
  return factIndex<MachineAnalysis, Guards, object, Guard | undefined>(
    'analysis',
    listOf,
    (guards) => guards.keys(),
    (sources, slot) => {
      let least: Guard | undefined;
      for (const guards of sources) {
        const guard = guards.get(slot);
        if (guard && (!least || mostThrough(guard) > mostThrough(least))) least = guard;
      }
      return least;
    },
    isSameGuard,
  );
}

function isSameGuard(a: Guard | undefined, b: Guard | undefined): boolean {
  if (a === b) return true;
  return (
    a !== undefined &&
    b !== undefined &&
    a.supply === b.supply &&
    a.limit === b.limit &&
    a.fuse?.at === b.fuse?.at &&
    Object.is(a.fuse?.rating, b.fuse?.rating)
  );
}

/** The most that can flow in a conductor for long, in A: by the fuse, or by what the supply gives. */
export function mostThrough({ limit, fuse }: Guard): number {
  return Math.min(limit ?? Number.POSITIVE_INFINITY, fuse?.rating ?? Number.POSITIVE_INFINITY);
}

function guardsFrom(machine: Machine, start: number | undefined, source: Guard): Guards {
  const guards = new Map<object, Guard>();
  if (start === undefined) return guards;
  const { order, by }: Reach = reachFrom(machine, start);
  const fuses = fusesBySlot(machine);
  const at = new Map<number, Guard>();
  for (const terminal of order) {
    const step = by.get(terminal);
    const before = (step && at.get(step.from)) ?? source;
    const fuse = step && fuses.get(step.slot);
    at.set(terminal, fuse ? behind(before, fuse) : before);
    if (step?.slot.isLink) guards.set(step.slot, before);
  }
  return guards;
}

const fusesBySlot = fact(
  'machine',
  (machine: Machine): ReadonlyMap<object, CircuitAt> =>
    new Map(fusesOf(machine).flatMap(({ slot, inside }) => (inside ? [[slot, inside]] : []))),
);

function behind(before: Guard, at: CircuitAt): Guard {
  const rating = at.circuit.figures.quantity('rating')?.value.value ?? Number.NaN;
  // Of two alike the nearer one stands for both.
  const isSmaller = before.fuse === undefined || !(before.fuse.rating < rating);
  return isSmaller ? { ...before, fuse: { at, rating } } : before;
}
