import { type Buckets, sortByNumber } from './buckets.ts';
import { Walk } from './walk.ts';

/** Something between two nodes. */
export interface Edge {
  readonly a: number;
  readonly b: number;
}

/** Many edges: the nodes of each, by its place. */
export interface Edges {
  readonly a: Int32Array;
  readonly b: Int32Array;
}

/**
 * Numbers for edges, from 0 without a gap, equal for two that lie on a common loop: the biconnected components of a graph
 * (Hopcroft and Tarjan, 1973). Current that goes out through an edge can only come back within its block. Walks with lists
 * of its own, since a chain of ten thousand edges would be too deep for recursion.
 * @param nodes all nodes are below this
 */
export function findBlocks(nodes: number, { a, b }: Edges): Int32Array {
  const { start, list } = listEdgesAt(nodes, a, b);
  const next = start.slice();
  const blockOf = new Int32Array(a.length).fill(-1);
  const walked = new Uint8Array(a.length);
  const walk = new Walk(nodes);
  const { order, low, path } = walk;
  const open: number[] = []; // the edges of blocks that are not complete yet
  const by: number[] = []; // the edges that led to the nodes on the path
  let blocks = 0;
  const enter = (node: number, edge: number) => {
    walk.enter(node);
    by.push(edge);
  };
  for (let root = 0; root < nodes; root++) {
    if (order[root] || start[root] === start[root + 1]) continue;
    enter(root, -1);
    for (let node = path.at(-1); node !== undefined; node = path.at(-1)) {
      const step = next[node] ?? 0;
      if (step === start[node + 1]) {
        path.pop();
        const edgeBack = by.pop();
        const before = path.at(-1);
        if (before === undefined) break;
        walk.lower(before, low[node]);
        if ((low[node] ?? 0) < (order[before] ?? 0)) continue;
        for (let last = open.pop(); last !== undefined; last = last === edgeBack ? undefined : open.pop())
          blockOf[last] = blocks;
        blocks += 1;
        continue;
      }
      next[node] = step + 1;
      const edge = list[step] ?? 0;
      if (walked[edge]) continue;
      walked[edge] = 1;
      const far = (a[edge] === node ? b[edge] : a[edge]) ?? 0;
      if (far === node) blockOf[edge] = blocks++;
      else {
        open.push(edge);
        if (order[far]) walk.lower(node, order[far]);
        else enter(far, edge);
      }
    }
  }
  return blockOf;
}

/** The edges at each node; one from a node to itself once. */
function listEdgesAt(nodes: number, a: Int32Array, b: Int32Array): Buckets {
  const ends: number[] = [];
  const edges: number[] = [];
  for (let edge = 0; edge < a.length; edge++) {
    const from = a[edge] ?? 0;
    const to = b[edge] ?? 0;
    ends.push(from);
    edges.push(edge);
    if (from === to) continue;
    ends.push(to);
    edges.push(edge);
  }
  return sortByNumber(nodes, Int32Array.from(ends), Int32Array.from(edges));
}
