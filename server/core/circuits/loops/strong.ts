import type { Edge } from './blocks.ts';

/** A way between two nodes, perhaps only from its first to its second. */
export interface Passage extends Edge {
  /** Whether current can flow only from `a` to `b`, as through a lamp or a transistor. */
  readonly isOneWay: boolean;
}

/**
 * Numbers for nodes, equal for two that can be reached from one another along the passages: the strongly connected
 * components of a graph (Tarjan, 1972), with a list in place of recursion.
 */
export function findCirculations(nodes: number, passages: readonly Passage[]): Int32Array {
  const leaving: (number[] | undefined)[] = new Array<number[] | undefined>(nodes).fill(undefined);
  const lead = (from: number, to: number) => {
    const there = leaving[from];
    if (there) there.push(to);
    else leaving[from] = [to];
  };
  for (const { a, b, isOneWay } of passages) {
    lead(a, b);
    if (!isOneWay) lead(b, a);
  }
  const setOf = new Int32Array(nodes).fill(-1);
  const order = new Int32Array(nodes);
  const low = new Int32Array(nodes);
  const open: number[] = [];
  let [time, sets] = [0, 0];
  for (let root = 0; root < nodes; root++) {
    if (order[root]) continue;
    const path: { readonly node: number; next: number }[] = [];
    const enter = (node: number) => {
      time += 1;
      order[node] = time;
      low[node] = time;
      open.push(node);
      path.push({ node, next: 0 });
    };
    enter(root);
    for (let step = path.at(-1); step; step = path.at(-1)) {
      const { node } = step;
      const to = leaving[node]?.[step.next];
      step.next += 1;
      if (to === undefined) {
        path.pop();
        const before = path.at(-1);
        if (before) low[before.node] = Math.min(low[before.node] ?? 0, low[node] ?? 0);
        if (low[node] !== order[node]) continue;
        for (let last = open.pop(); last !== undefined; last = last === node ? undefined : open.pop())
          setOf[last] = sets;
        sets += 1;
      } else if (!order[to]) enter(to);
      else if (setOf[to] === -1) low[node] = Math.min(low[node] ?? 0, order[to] ?? 0);
    }
  }
  return setOf;
}
