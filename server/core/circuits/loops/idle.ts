import { type Edge, findBlocks } from './blocks.ts';
import { sortByNumber } from './buckets.ts';
import { DRIVES } from './legs.ts';
import { findCirculations, type Passages } from './strong.ts';

/** Something between two nodes that may drive a current from its first to its second. */
export interface DrivenEdge extends Edge {
  /** Whether current can flow only from `a` to `b`. */
  readonly isOneWay: boolean;
  /** In volts; `DRIVES` where nobody can tell. */
  readonly drives: number;
}

/** How a supply holds a node: by so many volts above the zero of an island. */
export interface Held {
  readonly island: number;
  readonly volts: number;
}

/**
 * Finds the edges that no current can flow through. Supplies hold their rails whatever flows, so all rails of an island
 * are taken as its zero, and what ends on one of them drives by the rail's voltage. Within such a network a current is
 * driven by the sources of its own block alone (Kirchhoff's laws), so a block is idle when it has none, or when its
 * sources cancel round every loop: pull-ups of one voltage against each other, or a wire from a rail to itself. What
 * lets current through one way only is idle as well where no way leads back from its one end to the other.
 * @returns by edge: 1 where it is idle
 */
export function idleLegs(
  edges: readonly DrivenEdge[],
  holdOf: (node: number) => Held | undefined,
): Uint8Array {
  const shifted = shiftToZero(edges, holdOf);
  const { a, b } = shifted;
  const setOf = findCirculations(shifted.nodes, shifted);
  const idle = new Uint8Array(edges.length);
  const round: number[] = []; // what lies on a loop
  for (let edge = 0; edge < edges.length; edge++) {
    if (setOf[a[edge] ?? 0] === setOf[b[edge] ?? 0]) round.push(edge);
    else idle[edge] = 1;
  }
  const places = Int32Array.from(round);
  const blockOf = findBlocks(shifted.nodes, {
    a: places.map((edge) => a[edge] ?? 0),
    b: places.map((edge) => b[edge] ?? 0),
  });
  const blocks = blockOf.reduce((most, block) => Math.max(most, block + 1), 0);
  const { start, list } = sortByNumber(blocks, blockOf, places);
  for (let block = 0; block < blocks; block++) {
    const members = list.subarray(start[block], start[block + 1]);
    const [only = 0] = members;
    const isBridge = members.length === 1 && a[only] !== b[only];
    if (isBridge || cancels(shifted, members)) for (const edge of members) idle[edge] = 1;
  }
  return idle;
}

/** The edges of a network in which all rails of an island are one node. */
interface Shifted extends Passages {
  readonly nodes: number;
  readonly drives: Float64Array;
}

function shiftToZero(edges: readonly DrivenEdge[], holdOf: (node: number) => Held | undefined): Shifted {
  // From 0 without a gap, since the edges may be few of many.
  const zeros = new Map<number, number>();
  const others = new Map<number, number>();
  const numberIn = (numbers: Map<number, number>, of: number): number => {
    const number = numbers.get(of) ?? zeros.size + others.size;
    numbers.set(of, number);
    return number;
  };
  const a = new Int32Array(edges.length);
  const b = new Int32Array(edges.length);
  const drives = new Float64Array(edges.length);
  const isOneWay = new Uint8Array(edges.length);
  for (const [place, edge] of edges.entries()) {
    const high = holdOf(edge.a);
    const low = holdOf(edge.b);
    a[place] = high ? numberIn(zeros, high.island) : numberIn(others, edge.a);
    b[place] = low ? numberIn(zeros, low.island) : numberIn(others, edge.b);
    drives[place] = edge.drives - (high?.volts ?? 0) + (low?.volts ?? 0);
    isOneWay[place] = edge.isOneWay ? 1 : 0;
  }
  return { nodes: zeros.size + others.size, a, b, drives, isOneWay };
}

/** Sources closer than this share of their voltage cancel: supplies keep theirs within 5 % (common practice, no source). */
const SAME = 0.05;

/** Whether all loops of a block cancel: then every node has a voltage at which nothing flows. */
function cancels({ a, b, drives }: Shifted, block: Int32Array): boolean {
  let largest = 0;
  for (const edge of block) {
    const volts = drives[edge] ?? 0;
    if (volts === DRIVES) return false;
    largest = Math.max(largest, Math.abs(volts));
  }
  const slack = SAME * largest;
  const up = new Map<number, { readonly node: number; readonly volts: number }>();
  const find = (start: number): { node: number; volts: number } => {
    let node = start;
    let volts = 0;
    for (let next = up.get(node); next; next = up.get(node)) {
      volts += next.volts;
      node = next.node;
    }
    return { node, volts };
  };
  return block.every((edge) => {
    const high = find(a[edge] ?? 0);
    const low = find(b[edge] ?? 0);
    const gap = high.volts - low.volts;
    const volts = drives[edge] ?? 0;
    if (high.node === low.node) return Math.abs(gap - volts) <= slack;
    up.set(high.node, { node: low.node, volts: volts - gap });
    return true;
  });
}
