import { partsWithSheets } from '../../model/resolve.ts';
import { circuitsIn } from '../../model/sheet-circuits.ts';
import { isSameList } from '../../same-list.ts';
import type { CircuitAt } from '../signals.ts';
import { suppliedVolts } from './figures.ts';
import type { Frame } from './frame.ts';
import type { Wired } from './wired.ts';

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

/** Which nodes are held, and how. */
export type Holds = Pick<ReadonlyMap<number, Hold>, 'get' | 'has'>;

/** A supply that cannot hold what it should, since others (or the wiring) hold the same nodes otherwise. */
interface Conflict {
  readonly supply: Supply;
  /** What its own terminals would be at without it: 0 V for one that the wiring shorts. */
  readonly heldAt: number;
}

export interface Rails {
  /** By node. */
  readonly holds: ReadonlyMap<number, Hold>;
  readonly conflicts: readonly Conflict[];
}

/**
 * All supplies whose voltage is known, in the order of the machine.
 * @param endsIn the places of the ends of circuits
 * @param before those of an earlier version with the same sheets; each that is the same is the same object, and so is the list
 */
export function findSupplies(
  machine: Wired,
  endsIn: Frame['endsIn'],
  before: readonly Supply[] = [],
): readonly Supply[] {
  const supplies: Supply[] = [];
  /** Nearly all stand where they stood. */
  const knownAt = (plus: number): Supply | undefined => {
    const there = before[supplies.length];
    return there?.plus === plus ? there : before.find((supply) => supply.plus === plus);
  };
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const circuit of circuitsIn(sheet, 'power-out')) {
      const ends = endsIn.get(part.name)?.get(circuit);
      const plus = ends?.[0];
      const minus = ends?.[1];
      if (plus === undefined || minus === undefined) continue;
      const known = knownAt(plus);
      if (known?.at.part === part && known.at.circuit === circuit) {
        supplies.push(known);
        continue;
      }
      const volts = suppliedVolts(machine, part, circuit);
      if (volts === undefined) continue;
      const supply = { at: { part, circuit }, plus, minus, volts };
      supplies.push(known && isSameSupply(supply, known) ? known : supply);
    }
  }
  return isSameList(before, supplies) ? before : supplies;
}

/** Whether two supplies with the same plus are the same: a circuit has its ends where it had them. */
function isSameSupply({ at, volts }: Supply, other: Supply): boolean {
  return other.at.circuit === at.circuit && other.at.part.name === at.part.name && other.volts === volts;
}

/** Supplies closer than this give the same voltage, as far as a trim screw can tell. */
const TRIM = 0.05;

/**
 * Holds nodes by the supplies, one after another: each ties its two nodes together at its voltage. A supply that says
 * otherwise than those before it is a conflict, and is left out.
 * @param nodeOf the node of a terminal
 */
export function holdRails(supplies: readonly Supply[], nodeOf: (terminal: number) => number): Rails {
  const up = new Map<number, Hold>();
  const conflicts: Conflict[] = [];
  for (const supply of supplies) {
    const plus = findZero(up, nodeOf(supply.plus));
    const minus = findZero(up, nodeOf(supply.minus));
    const heldAt = plus.volts - minus.volts;
    if (plus.island !== minus.island)
      up.set(plus.island, { island: minus.island, volts: supply.volts - heldAt });
    else if (Math.abs(heldAt - supply.volts) > TRIM) conflicts.push({ supply, heldAt });
  }
  const holds = new Map<number, Hold>();
  for (const { plus, minus } of supplies) {
    for (const node of [nodeOf(plus), nodeOf(minus)]) holds.set(node, findZero(up, node));
  }
  return { holds, conflicts };
}

/** The zero of the island that a node is on, and how far the node is above it. */
function findZero(up: ReadonlyMap<number, Hold>, node: number): Hold {
  let island = node;
  let volts = 0;
  for (let next = up.get(island); next; next = up.get(island)) {
    volts += next.volts;
    island = next.island;
  }
  return { island, volts };
}

/**
 * The rails while one supply gives nothing, so that its loads have pulled it down to its minus, unless another supply
 * stands on the same terminals. Only the island of the supply is reckoned anew.
 */
export function loseSupply(
  rails: Rails,
  supplies: readonly Supply[],
  lost: Supply,
  nodeOf: (terminal: number) => number,
): Holds {
  const island = rails.holds.get(nodeOf(lost.minus))?.island;
  const others = supplies.filter(
    (supply) => supply !== lost && rails.holds.get(nodeOf(supply.minus))?.island === island,
  );
  // It comes last, so that it gives way to what the others hold.
  const { holds } = holdRails([...others, { ...lost, volts: 0 }], nodeOf);
  return { has: (node) => rails.holds.has(node), get: (node) => holds.get(node) ?? rails.holds.get(node) };
}
