import { MAINS, partsWithSheets } from '../../model/resolve.ts';
import { terminalId } from '../../model/terminal-id.ts';
import type { CircuitAt } from '../signals.ts';
import type { Board } from '../solve/board.ts';
import type { Edge } from './blocks.ts';
import { consumes, DRIVES, type LegShape, legsOf } from './legs.ts';

/** A leg of a circuit on the machine; its nodes are the lowest of the terminals that wires, fuses and commons join. */
export interface Leg extends Edge, LegShape {
  /** Undefined for the supply network. */
  readonly at: CircuitAt | undefined;
  readonly consumes: boolean;
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
    for (const circuit of sheet.circuits.values()) {
      const ends = circuit.ends.map(
        (end) => nodeOf[conductors.placeOf.get(terminalId(part.name, end.text)) ?? -1],
      );
      const inner = nodes;
      const at = { part, circuit };
      for (const shape of legsOf(circuit)) {
        const [a, b] = [shape.from, shape.to].map((end) => (end < 3 ? ends[end] : inner));
        if (a === undefined || b === undefined) continue;
        if (b === inner) nodes = inner + 1;
        legs.push({ ...shape, a, b, at, consumes: consumes(circuit, shape, sheet.partClass) });
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
    legs.push({ from: 0, to: 3, drives: DRIVES, isOneWay: false, a, b, at: undefined, consumes: false });
  }
  return { legs, nodes, unknown };
}

/** Nodes with a terminal of the mains, or one of which nobody knows what is behind it; and the part that it is of. */
function hiddenSources({ machine, conductors }: Board, nodeOf: Int32Array): [node: number, part: string][] {
  const known = new Set<string>([terminalId(MAINS, 'PE')]);
  for (const { part, sheet } of partsWithSheets(machine)) {
    for (const { ends } of sheet.circuits.values())
      for (const end of ends) known.add(terminalId(part.name, end.text));
  }
  return conductors.terminals.flatMap((terminal, place): [number, string][] => {
    const node = nodeOf[place];
    if (node === undefined || known.has(terminal)) return [];
    return [[node, terminal.slice(0, terminal.indexOf('.'))]];
  });
}
