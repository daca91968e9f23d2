/** Something between two nodes. */
export interface Edge {
  readonly a: number;
  readonly b: number;
}

/**
 * Numbers for edges, equal for two that lie on a common loop: the biconnected components of a graph (Hopcroft and
 * Tarjan, 1973). Current that goes out through an edge can only come back within its block. Walks with a list of its
 * own, since a chain of ten thousand edges would be too deep for recursion.
 * @param nodes all nodes are below this
 */
export function findBlocks(nodes: number, edges: readonly Edge[]): Int32Array {
  const edgesAt = listEdgesAt(nodes, edges);
  const blockOf = new Int32Array(edges.length).fill(-1);
  const walked = new Uint8Array(edges.length);
  const order = new Int32Array(nodes);
  const low = new Int32Array(nodes);
  const open: number[] = []; // the edges of blocks that are not complete yet
  let [time, blocks] = [0, 0];
  for (let root = 0; root < nodes; root++) {
    if (order[root] || edgesAt[root] === undefined) continue;
    const path: { readonly node: number; readonly by: number; next: number }[] = [];
    const enter = (node: number, by: number) => {
      time += 1;
      order[node] = time;
      low[node] = time;
      path.push({ node, by, next: 0 });
    };
    enter(root, -1);
    for (let step = path.at(-1); step; step = path.at(-1)) {
      const edge = edgesAt[step.node]?.[step.next];
      step.next += 1;
      if (edge === undefined) {
        path.pop();
        const before = path.at(-1);
        if (!before) break;
        low[before.node] = Math.min(low[before.node] ?? 0, low[step.node] ?? 0);
        if ((low[step.node] ?? 0) < (order[before.node] ?? 0)) continue;
        for (let last = open.pop(); last !== undefined; last = last === step.by ? undefined : open.pop())
          blockOf[last] = blocks;
        blocks += 1;
      } else if (!walked[edge]) {
        walked[edge] = 1;
        const { a, b } = edges[edge] ?? { a: 0, b: 0 };
        const far = a === step.node ? b : a;
        if (far === step.node) blockOf[edge] = blocks++;
        else {
          open.push(edge);
          if (order[far]) low[step.node] = Math.min(low[step.node] ?? 0, order[far] ?? 0);
          else enter(far, edge);
        }
      }
    }
  }
  return blockOf;
}

function listEdgesAt(nodes: number, edges: readonly Edge[]): (number[] | undefined)[] {
  const edgesAt = new Array<number[] | undefined>(nodes).fill(undefined);
  const add = (node: number, edge: number) => {
    const there = edgesAt[node];
    if (there) there.push(edge);
    else edgesAt[node] = [edge];
  };
  for (const [edge, { a, b }] of edges.entries()) {
    add(a, edge);
    if (a !== b) add(b, edge);
  }
  return edgesAt;
}
