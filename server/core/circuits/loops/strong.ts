import type { Edges } from './blocks.ts';
import { type Buckets, sortByNumber } from './buckets.ts';
import { Walk } from './walk.ts';

/** Ways between two nodes, some of them only from the first to the second. */
export interface Passages extends Edges {
  /** 1 where current can flow only from `a` to `b`, as through a lamp or a transistor. */
  readonly isOneWay: Uint8Array;
}

/**
 * Numbers for nodes, equal for two that can be reached from one another along the passages: the strongly connected
 * components of a graph (Tarjan, 1972), with lists in place of recursion.
 */
export function findCirculations(nodes: number, passages: Passages): Int32Array {
  const { start, list } = listWaysOut(nodes, passages);
  const next = start.slice();
  const setOf = new Int32Array(nodes).fill(-1);
  const walk = new Walk(nodes);
  const { order, low, path } = walk;
  const open: number[] = [];
  let sets = 0;
  const enter = (node: number) => {
    walk.enter(node);
    open.push(node);
  };
  for (let root = 0; root < nodes; root++) {
    if (order[root]) continue;
    enter(root);
    for (let node = path.at(-1); node !== undefined; node = path.at(-1)) {
      const step = next[node] ?? 0;
      if (step < (start[node + 1] ?? 0)) {
        next[node] = step + 1;
        const to = list[step] ?? 0;
        if (!order[to]) enter(to);
        else if (setOf[to] === -1) walk.lower(node, order[to]);
        continue;
      }
      path.pop();
      const before = path.at(-1);
      if (before !== undefined) walk.lower(before, low[node]);
      if (low[node] !== order[node]) continue;
      for (let last = open.pop(); last !== undefined; last = last === node ? undefined : open.pop())
        setOf[last] = sets;
      sets += 1;
    }
  }
  return setOf;
}

function listWaysOut(nodes: number, { a, b, isOneWay }: Passages): Buckets {
  const from: number[] = [];
  const to: number[] = [];
  for (let place = 0; place < a.length; place++) {
    const one = a[place] ?? 0;
    const other = b[place] ?? 0;
    from.push(one);
    to.push(other);
    if (isOneWay[place]) continue;
    from.push(other);
    to.push(one);
  }
  return sortByNumber(nodes, Int32Array.from(from), Int32Array.from(to));
}
