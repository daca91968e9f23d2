import { MAINS, partsWithSheets } from '../../model/resolve.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { CircuitAt } from '../signals.ts';
import type { Board } from '../solve/board.ts';
import { partIn } from '../solve/whereabouts.ts';
import type { Edge } from './blocks.ts';
import { consumes, DRIVES, type LegShape, legsOf } from './legs.ts';

/** A leg of a circuit on the machine; its nodes are the lowest of the terminals that wires, fuses and commons join. */
export interface Leg extends Edge, LegShape {
  /** Undefined for the supply network. */
  readonly at: CircuitAt | undefined;
  readonly consumes: boolean;
  /** The terminals on which its circuit ends, as places; none for the supply network. */
  readonly ends: readonly number[];
}

/** The circuits of a machine as legs between nodes. */
export interface Network {
  readonly legs: readonly Leg[];
  readonly nodes: number;
  /** Nodes with a terminal of which nobody knows what is behind it. */
  readonly unknown: ReadonlySet<number>;
}

/** The legs of all circuits, and of the supply network as far as links name it. */
export function layLegs(board: Board, nodeOf: Int32Array): Network {
  const { machine, conductors } = board;
  const legs: Leg[] = [];
  let nodes = conductors.terminals.length;
  for (const { part, sheet } of partsWithSheets(machine)) {
    const endsIn = conductors.frame.endsIn.get(part.name);
    for (const circuit of sheet.circuits.values()) {
      const ends = endsIn?.get(circuit) ?? [];
      const shapes = legsOf(circuit);
      if (shapes.length === 0) continue;
      const inner = nodes;
      const at = { part, circuit };
      for (const shape of shapes) {
        const { from, to, drives, isOneWay } = shape;
        const a = nodeOf[ends[from] ?? -1];
        const b = to < 3 ? nodeOf[ends[to] ?? -1] : inner;
        if (a === undefined || b === undefined) continue;
        if (b === inner) nodes = inner + 1;
        const needs = consumes(circuit, shape, sheet.partClass);
        legs.push({ from, to, drives, isOneWay, a, b, at, consumes: needs, ends });
      }
    }
  }
  // The mains, and whatever is behind terminals of which nothing is known, drive currents between their own terminals.
  const middles = new Map<string, number>();
  const unknown = new Set<number>();
  for (const [a, part] of hiddenSources(board, nodeOf)) {
    const b = middles.get(part) ?? nodes++;
    middles.set(part, b);
    if (part !== MAINS) unknown.add(a);
    const hidden = { at: undefined, consumes: false, ends: [] };
    legs.push({ from: 0, to: 3, drives: DRIVES, isOneWay: false, a, b, ...hidden });
  }
  return { legs, nodes, unknown };
}

const EARTH = terminalId(MAINS, 'PE');

/** Nodes with a terminal of the mains, or one of which nobody knows what is behind it; and the part that it is of. */
function hiddenSources({ conductors }: Board, nodeOf: Int32Array): [node: number, part: string][] {
  const { frame, terminals } = conductors;
  // The terminals that some circuit names come first, so what follows is known from links alone.
  const others = [...nodeOf.subarray(frame.terminals.length)];
  return others.flatMap((node, place): [number, string][] => {
    const terminal = terminals[frame.terminals.length + place] ?? '';
    return terminal === EARTH ? [] : [[node, partIn(terminal)]];
  });
}
