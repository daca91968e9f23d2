import type { MachineAnalysis } from '../../analysis.ts';
import type { CircuitAt } from '../../circuits/signals.ts';
import { circuitsOfKind } from '../../circuits/supply.ts';
import { placeOfEnd, type Reach, reachOf, type Ways, wayAt, wayNetOf } from '../../circuits/ways.ts';
import { MAINS, type Machine, mainsTerminals } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';

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

/**
 * What stands between each link and the plus (or live) of the source that feeds it, by the slot of the way. Of several
 * sources the least limited counts. Return conductors are not looked at.
 */
export const guardsOf = fact('analysis', findGuards);

/** The most that can flow in a conductor for long, in A: by the fuse, or by what the supply gives. */
export function mostThrough({ limit, fuse }: Guard): number {
  return Math.min(limit ?? Number.POSITIVE_INFINITY, fuse?.rating ?? Number.POSITIVE_INFINITY);
}

function findGuards({ machine }: MachineAnalysis): Map<object, Guard> {
  const ways = wayNetOf(machine);
  const guards = new Map<object, Guard>();
  for (const supply of circuitsOfKind(machine, 'power-out')) {
    const limit = supply.circuit.figures.quantity('current')?.value.value;
    const start = placeOfEnd(ways, supply, 0);
    if (start !== undefined)
      guard(machine, ways, reachOf(ways, start), { supply, limit, fuse: undefined }, guards);
  }
  for (const terminal of mainsTerminals(machine)) {
    const start = /^L/.test(terminal) ? ways.placeOf.get(`${MAINS}.${terminal}`) : undefined;
    if (start !== undefined)
      guard(
        machine,
        ways,
        reachOf(ways, start),
        { supply: undefined, limit: undefined, fuse: undefined },
        guards,
      );
  }
  return guards;
}

function guard(
  machine: Machine,
  ways: Ways,
  { order, by }: Reach,
  source: Guard,
  guards: Map<object, Guard>,
): void {
  const at = new Map<number, Guard>();
  for (const terminal of order) {
    const step = by.get(terminal);
    const way = step && wayAt(ways, step.slot);
    if (!way) {
      at.set(terminal, source);
      continue;
    }
    const before = at.get(step.from) ?? source;
    at.set(
      terminal,
      way.inside?.circuit.kind === 'fuse' ? behind(before, present(machine, way.inside)) : before,
    );
    if (!way.link) continue;
    const known = guards.get(way.slot);
    if (!known || mostThrough(before) > mostThrough(known)) guards.set(way.slot, before);
  }
}

/** A circuit as it stands in this version of the machine: the net of the ways may name parts of an earlier one. */
function present({ parts }: Machine, { part, circuit }: CircuitAt): CircuitAt {
  return { part: parts.get(part.name) ?? part, circuit };
}

function behind(before: Guard, at: CircuitAt): Guard {
  const rating = at.circuit.figures.quantity('rating')?.value.value ?? Number.NaN;
  // Of two alike the nearer one stands for both.
  const isSmaller = before.fuse === undefined || !(before.fuse.rating < rating);
  return isSmaller ? { ...before, fuse: { at, rating } } : before;
}
