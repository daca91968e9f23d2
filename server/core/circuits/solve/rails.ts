import type { Machine } from '../../model/resolve.ts';
import { terminalId } from '../nets.ts';
import type { CircuitAt } from '../signals.ts';
import { circuitsOfKind } from '../supply.ts';
import { suppliedVolts } from './figures.ts';

/** A supply of the machine: what holds two nodes at a voltage. */
export interface Supply {
  readonly at: CircuitAt;
  /** Places in the list of terminals. */
  readonly plus: number;
  readonly minus: number;
  readonly volts: number;
}

/** How a supply holds a node: by so many volts above the zero of an island. Islands are isolated from one another. */
export interface Hold {
  readonly island: number;
  readonly volts: number;
}

/** A supply that cannot hold what it should, since others (or the wiring) hold the same nodes otherwise. */
export interface Conflict {
  readonly supply: Supply;
  /** What its own terminals would be at without it: 0 V for one that the wiring shorts. */
  readonly heldAt: number;
}

export interface Rails {
  /** By node. */
  readonly holds: ReadonlyMap<number, Hold>;
  readonly conflicts: readonly Conflict[];
}

/** All supplies whose voltage is known, in the order of the machine. */
export function findSupplies(machine: Machine, placeOf: ReadonlyMap<string, number>): Supply[] {
  return circuitsOfKind(machine, 'power-out').flatMap((at) => {
    const [plus, minus] = at.circuit.ends.map((end) => placeOf.get(terminalId(at.part.name, end.text)));
    const volts = suppliedVolts(machine, at.part, at.circuit);
    return plus === undefined || minus === undefined || volts === undefined
      ? []
      : [{ at, plus, minus, volts }];
  });
}

/** Supplies closer than this give the same voltage, as far as a trim screw can tell. */
const TRIM = 0.05;

/**
 * Holds nodes by the supplies, one after another: each ties its two nodes together at its voltage. A supply that says
 * otherwise than those before it is a conflict, and is left out.
 * @param nodeOf the node of a terminal
 * @param dead a supply that gives nothing: its loads pull it down to its minus
 */
export function holdRails(
  supplies: readonly Supply[],
  nodeOf: (terminal: number) => number,
  dead?: Supply,
): Rails {
  const up = new Map<number, { node: number; volts: number }>();
  const conflicts: Conflict[] = [];
  const find = (node: number): { node: number; volts: number } => {
    let [at, volts] = [node, 0];
    for (let next = up.get(at); next; next = up.get(at)) {
      volts += next.volts;
      at = next.node;
    }
    return { node: at, volts };
  };
  for (const supply of supplies) {
    const volts = supply === dead ? 0 : supply.volts;
    const [plus, minus] = [find(nodeOf(supply.plus)), find(nodeOf(supply.minus))];
    const heldAt = plus.volts - minus.volts;
    if (plus.node !== minus.node) up.set(plus.node, { node: minus.node, volts: volts - heldAt });
    else if (Math.abs(heldAt - volts) > TRIM && dead === undefined) conflicts.push({ supply, heldAt });
  }
  const holds = new Map<number, Hold>();
  for (const { plus, minus } of supplies) {
    for (const node of [nodeOf(plus), nodeOf(minus)]) {
      const found = find(node);
      holds.set(node, { island: found.node, volts: found.volts });
    }
  }
  return { holds, conflicts };
}
