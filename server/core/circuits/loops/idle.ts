import { findBlocks } from './blocks.ts';
import { DRIVES } from './legs.ts';
import { findCirculations, type Passage } from './strong.ts';

/** Something between two nodes that may drive a current from its first to its second. */
export interface DrivenEdge extends Passage {
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
  nodes: number,
  edges: readonly DrivenEdge[],
  holdOf: (node: number) => Held | undefined,
): Uint8Array {
  const zeros = new Map<number, number>();
  const zeroOf = (island: number): number => {
    const known = zeros.get(island);
    if (known !== undefined) return known;
    zeros.set(island, nodes + zeros.size);
    return nodes + zeros.size - 1;
  };
  const shifted = edges.map(({ a, b, drives, isOneWay }): DrivenEdge => {
    const [high, low] = [holdOf(a), holdOf(b)];
    return {
      isOneWay,
      a: high ? zeroOf(high.island) : a,
      b: low ? zeroOf(low.island) : b,
      drives: drives - (high?.volts ?? 0) + (low?.volts ?? 0),
    };
  });
  const setOf = findCirculations(nodes + zeros.size, shifted);
  const goesRound = shifted.map(({ a, b }) => setOf[a] === setOf[b]);
  const blockOf = findBlocks(
    nodes + zeros.size,
    shifted.filter((_, edge) => goesRound[edge]),
  );
  const idle = Uint8Array.from(goesRound, (each) => (each ? 0 : 1));
  const blocks = new Map<number, { readonly places: number[]; readonly ways: DrivenEdge[] }>();
  let next = 0;
  for (const [place, way] of shifted.entries()) {
    if (!goesRound[place]) continue;
    const block = blockOf[next++] ?? -1;
    const there = blocks.get(block);
    if (!there) blocks.set(block, { places: [place], ways: [way] });
    else {
      there.places.push(place);
      there.ways.push(way);
    }
  }
  for (const { places, ways } of blocks.values()) {
    const isBridge = ways.length === 1 && ways[0]?.a !== ways[0]?.b;
    if (isBridge || cancels(ways)) for (const place of places) idle[place] = 1;
  }
  return idle;
}

/** Sources closer than this share of their voltage cancel: supplies keep theirs within 5 % (common practice, no source). */
const SAME = 0.05;

/** Whether all loops of a block cancel: then every node has a voltage at which nothing flows. */
function cancels(block: readonly DrivenEdge[]): boolean {
  if (block.some(({ drives }) => drives === DRIVES)) return false;
  const slack = SAME * Math.max(...block.map(({ drives }) => Math.abs(drives)));
  const up = new Map<number, { readonly node: number; readonly volts: number }>();
  const find = (start: number): { node: number; volts: number } => {
    let [node, volts] = [start, 0];
    for (let next = up.get(node); next; next = up.get(node)) {
      volts += next.volts;
      node = next.node;
    }
    return { node, volts };
  };
  return block.every(({ a, b, drives }) => {
    const [high, low] = [find(a), find(b)];
    const gap = high.volts - low.volts;
    if (high.node === low.node) return Math.abs(gap - drives) <= slack;
    up.set(high.node, { node: low.node, volts: drives - gap });
    return true;
  });
}
