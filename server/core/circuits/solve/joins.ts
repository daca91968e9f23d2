import type { Join, Network } from './branch.ts';

/** Nodes that joins hold at fixed distances from one another: each set has one unknown voltage. */
export interface Classes {
  /** The node that stands for the set of each node. */
  readonly rootOf: Int32Array;
  /** How many volts each node is above the root of its set. */
  readonly offsetOf: Float64Array;
  /** The joins that hold the sets together, by their place among the branches; others close a loop and add nothing. */
  readonly tree: readonly number[];
}

/** A join that asks for another voltage than the joins before it give. */
export interface Contradiction {
  readonly branch: number;
  /** By how many volts the two disagree. */
  readonly volts: number;
}

/** Supplies that differ by less stand for the same voltage: no meter in a workshop tells them apart. */
export const SAME_VOLTAGE = 1e-3;

/**
 * Puts all nodes that joins connect into sets, with their distances: supplies and wires need no unknowns of their own
 * then, and the matrix of the rest stays symmetric and positive. A join that contradicts earlier ones is left out and
 * reported; earlier ones win, so the result does not depend on anything but their order.
 */
export function classify({ nodes, branches }: Network): {
  classes: Classes;
  contradictions: Contradiction[];
} {
  const parent = new Int32Array(nodes);
  const above = new Float64Array(nodes);
  for (let node = 0; node < nodes; node++) parent[node] = node;
  const tree: number[] = [];
  const contradictions: Contradiction[] = [];
  const find = (node: number): [number, number] => {
    let at = node;
    let sum = 0;
    for (let up = parent[at] ?? at; up !== at; up = parent[at] ?? at) {
      sum += above[at] ?? 0;
      at = up;
    }
    return [at, sum];
  };
  for (const [index, branch] of branches.entries()) {
    if (branch.kind !== 'join') continue;
    const [rootA, sumA] = find(branch.a);
    const [rootB, sumB] = find(branch.b);
    const gap = branch.volts + sumB - sumA;
    if (rootA === rootB) {
      if (Math.abs(gap) > SAME_VOLTAGE) contradictions.push({ branch: index, volts: gap });
      continue;
    }
    parent[rootA] = rootB;
    above[rootA] = gap;
    tree.push(index);
  }
  const rootOf = new Int32Array(nodes);
  const offsetOf = new Float64Array(nodes);
  for (let node = 0; node < nodes; node++) {
    const [root, sum] = find(node);
    rootOf[node] = root;
    offsetOf[node] = sum;
  }
  return { classes: { rootOf, offsetOf, tree }, contradictions };
}

/**
 * The currents in joins, which no formula of their own gives: what flows into one side of a join must leave by it.
 * @param leaving amperes that leave each node through everything but joins
 * @returns by place among the branches; joins outside the tree carry a share that nothing determines, and are left out
 */
export function joinCurrents(
  network: Network,
  classes: Classes,
  leaving: Float64Array,
): ReadonlyMap<number, number> {
  const edges = new Map<number, number[]>();
  for (const index of classes.tree) {
    const join = network.branches[index] as Join;
    for (const end of [join.a, join.b]) {
      const there = edges.get(end);
      if (there) there.push(index);
      else edges.set(end, [index]);
    }
  }
  const left = Float64Array.from(leaving);
  const currents = new Map<number, number>();
  // Leaves of the tree first: a node with a single open join sends all that it must through it.
  const ready = [...edges.keys()].filter(
    (node) => edges.get(node)?.length === 1 && node !== network.reference,
  );
  for (let node = ready.pop(); node !== undefined; node = ready.pop()) {
    const [index] = edges.get(node) ?? [];
    if (index === undefined) continue;
    const { a, b } = network.branches[index] as Join;
    const far = node === a ? b : a;
    const out = -(left[node] ?? 0);
    currents.set(index, node === a ? out : -out);
    left[far] = (left[far] ?? 0) - out;
    edges.set(node, []);
    const rest = (edges.get(far) ?? []).filter((each) => each !== index);
    edges.set(far, rest);
    if (rest.length === 1 && far !== network.reference) ready.push(far);
  }
  return currents;
}
