import type { CircuitAt } from '../signals.ts';
import type { Edge } from './blocks.ts';
import { consumes, DRIVES, type LegShape } from './legs.ts';
import type { Circuits, Ground } from './region.ts';
import { sitesOf } from './sites.ts';

/** A leg of a circuit on the machine; its nodes are the lowest of the terminals that wires, fuses and commons join. */
export interface Leg extends Edge, LegShape {
  /** Undefined for the supply network. */
  readonly at: CircuitAt | undefined;
  readonly consumes: boolean;
  /** The terminals on which its circuit ends, as places; none for the supply network. */
  readonly ends: readonly number[];
  /** The place of its circuit among the sites; those of the supply network come after all. */
  readonly site: number;
}

/** Nodes inside of circuits are numbered by their sites from here on, beyond all terminals. */
export const INSIDE = 2 ** 30;

/** The legs of the circuits of a region, in the order of the machine, and of the supply network as far as it is in it. */
export function layLegs({ conductors, netOf, parts }: Ground, { sites, hidden }: Circuits): Leg[] {
  const { all, seatOf } = sitesOf(conductors.frame);
  const legs: Leg[] = [];
  for (const site of sites) {
    const { partClass, circuit, ends, shapes } = all[site] ?? NOTHING;
    const part = parts[seatOf[site] ?? -1];
    if (!circuit || !part) continue;
    const at = { part, circuit };
    for (const shape of shapes) {
      const { from, to, drives, isOneWay } = shape;
      const a = netOf[ends[from] ?? -1] ?? -1;
      const b = to > 2 ? INSIDE + site : (netOf[ends[to] ?? -1] ?? -1);
      legs.push({
        from,
        to,
        drives,
        isOneWay,
        a,
        b,
        at,
        consumes: consumes(circuit, shape, partClass),
        ends,
        site,
      });
    }
  }
  // The mains, and whatever is behind terminals of which nothing is known, drive currents between their own terminals.
  let site = all.length;
  for (const terminals of hidden.values()) {
    const shared = {
      from: 0,
      to: 3,
      drives: DRIVES,
      isOneWay: false,
      at: undefined,
      consumes: false,
      ends: [],
    };
    for (const terminal of terminals)
      legs.push({ ...shared, a: netOf[terminal] ?? -1, b: INSIDE + site, site });
    site++;
  }
  return legs;
}

const NOTHING = { partClass: '', circuit: undefined, ends: [], shapes: [] };
