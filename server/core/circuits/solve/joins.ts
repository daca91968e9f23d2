import type { Join, Network } from './branch.ts';

/** Nodes that joins hold at fixed distances from one another: each set has one unknown voltage. */
export interface Classes {
  /** The node that stands for the set of each node. */
  readonly rootOf: readonly number[];
  /** How many volts each node is above the root of its set. */
  readonly offsetOf: readonly number[];
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
const SAME_VOLTAGE = 1e-3;

/**
 * Puts all nodes that joins connect into sets, with their distances: supplies and wires need no unknowns of their own
 * then, and the matrix of the rest stays symmetric and positive. A join that contradicts earlier ones is left out and
 * reported; earlier ones win, so the result does not depend on anything but their order.
 */
export function classify({ nodes, branches }: Network): {
  classes: Classes;
  contradictions: Contradiction[];
} {
  const parent = Array.from({ length: nodes }, (_, node) => node);
  const above = new Array<number>(nodes).fill(0);
  const tree: number[] = [];
  const contradictions: Contradiction[] = [];
  for (let index = 0; index < branches.length; index++) {
    const branch = branches[index];
    if (branch?.kind !== 'join') continue;
    flatten(parent, above, branch.a);
    flatten(parent, above, branch.b);
    const rootA = parent[branch.a] ?? 0;
    const rootB = parent[branch.b] ?? 0;
    const gap = branch.volts + (above[branch.b] ?? 0) - (above[branch.a] ?? 0);
    if (rootA !== rootB) {
      parent[rootA] = rootB;
      above[rootA] = gap;
      tree.push(index);
    } else if (Math.abs(gap) > SAME_VOLTAGE) contradictions.push({ branch: index, volts: gap });
  }
  for (let node = 0; node < nodes; node++) flatten(parent, above, node);
  return { classes: { rootOf: parent, offsetOf: above, tree }, contradictions };
}

/** Hangs a node directly under the root of its set, with its distance to it. */
function flatten(parent: number[], above: number[], node: number): void {
  let root = node;
  let volts = 0;
  for (let up = parent[root] ?? root; up !== root; up = parent[root] ?? root) {
    volts += above[root] ?? 0;
    root = up;
  }
  parent[node] = root;
  above[node] = volts;
}

/**
 * The currents in joins, which no formula of their own gives: what flows into one side of a join must leave by it.
 * @param leaving amperes that leave each node through everything but joins
 * @returns by place among the branches; joins outside the tree carry a share that nothing determines, and are left out
 */
export function joinCurrents(
  network: Network,
  classes: Classes,
  leaving: readonly number[],
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
  const left = [...leaving];
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
