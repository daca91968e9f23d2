import type { Board } from './board.ts';
import { type Branch, type Network, resistor } from './branch.ts';
import { type Group, nodeAt, type View } from './groups.ts';

/** A group put into numbers: the same for all states, so that each state only chooses among ready branches. */
export interface Circuit {
  /**
   * The newest board on which the group is what it is here: that of the version that took it over last. See `moveTo`.
   */
  readonly board: Board;
  readonly view: View;
  readonly group: Group;
  readonly nodes: number;
  readonly reference: number;
  /** What is there in every state: the holds of the rails in the order of their nodes, then the group's wires. */
  readonly fixed: readonly Branch[];
  /** In the order of the group's elements. */
  readonly parts: readonly CircuitPart[];
  /** The place among the parts of an element of the board. */
  readonly partOf: ReadonlyMap<number, number>;
  /** The number here of a node of the machine; undefined for nodes that are not in the group. */
  readonly numberOf: ReadonlyMap<number, number>;
  readonly touchesMains: boolean;
}

export interface CircuitPart {
  readonly element: number;
  /** The numbers of its ends. */
  readonly ends: readonly number[];
  readonly rest: readonly Branch[];
  readonly operated: readonly Branch[];
  readonly dead: readonly Branch[];
}

/**
 * Lets a circuit that a version took over refer to the board of that version, so that it does not keep the one on which it
 * was solved in memory. This shows nowhere, not even in an earlier version that still has the circuit: all that a circuit
 * reads of its board, its elements and what stands at its terminals, is the same on both, or it would not be taken over.
 */
export function moveTo(board: Board, circuit: Circuit): void {
  (circuit as { board: Board }).board = board;
}

/** A join that the machine does not have: a terminal shorted to a rail. */
export interface Short {
  readonly node: number;
  readonly rail: number;
}

/**
 * Puts a group into numbers. Its reference is the zero of the first island whose rails it touches; the zeros of others
 * are unknowns, so that a missing common is solved for what it does. Without any rail, it is the return of the first
 * circuit that looks at something.
 */
export function composeCircuit(board: Board, view: View, group: Group, short?: Short): Circuit {
  const numberOf = new Map<number, number>();
  let nodes = 0;
  const number = (node: number): number => {
    const known = numberOf.get(node);
    if (known !== undefined) return known;
    numberOf.set(node, nodes);
    return nodes++;
  };
  const parts = group.elements.map((element): CircuitPart => {
    const ends = (board.endsOf[element] ?? []).map((end) => number(nodeAt(board, view, end)));
    const { rest = [], operated = [], fed } = board.elements[element] ?? {};
    // Nodes inside the part come after its ends.
    const inner = new Map<number, number>();
    const place = (end: number): number => {
      const known = ends[end] ?? inner.get(end);
      if (known !== undefined) return known;
      inner.set(end, nodes);
      return nodes++;
    };
    const put = (branches: readonly Branch[]) =>
      branches.map((branch) => ({ ...branch, a: place(branch.a), b: place(branch.b) }));
    const atRest = put(rest);
    return {
      element,
      ends,
      rest: atRest,
      operated: operated === rest ? atRest : put(operated),
      dead: fed ? put(fed.dead) : [],
    };
  });
  const fixed: Branch[] = group.wires.map(({ a, b, ohms = 0 }) =>
    resistor(number(nodeAt(board, view, a)), number(nodeAt(board, view, b)), ohms),
  );
  if (short) fixed.push({ kind: 'join', a: number(short.node), b: number(short.rail), volts: 0 });
  const islands = new Map<number, number>();
  const holds: Branch[] = [];
  numberOf.forEach((a, node) => {
    const hold = view.holds.get(node);
    if (!hold) return;
    let zero = islands.get(hold.island);
    if (zero === undefined) {
      zero = nodes++;
      islands.set(hold.island, zero);
    }
    holds.push({ kind: 'join', a, b: zero, volts: hold.volts });
  });
  const [firstZero] = islands.values();
  return {
    board,
    view,
    group,
    nodes,
    reference: firstZero ?? returnOf(board, parts),
    fixed: [...holds, ...fixed],
    parts,
    partOf: new Map(group.elements.map((element, index) => [element, index])),
    numberOf,
    touchesMains: [...numberOf.keys()].some((node) => board.onMains.has(node)),
  };
}

/** The network of a circuit in one state, and where the branches of each part begin. */
export interface Composed {
  readonly network: Network;
  readonly starts: readonly number[];
}

/** Chooses the branches of each part for a state. */
export function composeNetwork(
  { nodes, reference, fixed, parts }: Circuit,
  choose: (part: CircuitPart, index: number) => readonly Branch[],
): Composed {
  const branches: Branch[] = [...fixed];
  const starts = parts.map((part, index) => {
    const start = branches.length;
    for (const branch of choose(part, index)) branches.push(branch);
    return start;
  });
  return { network: { nodes, reference, branches }, starts };
}

function returnOf(board: Board, parts: readonly CircuitPart[]): number {
  const first = parts.find(({ element }) => board.elements[element]?.reads !== undefined) ?? parts[0];
  return first?.ends[1] ?? 0;
}
