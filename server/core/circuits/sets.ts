/** Disjoint sets of numbers. */
export interface Sets {
  readonly find: (node: number) => number;
  readonly join: (a: number, b: number) => void;
}

/** Makes so many sets of one number each, from 0. */
export function createSets(count: number): Sets {
  const up = new Int32Array(count);
  for (let node = 0; node < count; node++) up[node] = node;
  const find = (node: number): number => {
    let at = node;
    for (let next = up[at] ?? at; next !== at; next = up[at] ?? at) {
      up[at] = up[next] ?? next; // halves the path
      at = up[at] ?? at;
    }
    return at;
  };
  return {
    find,
    join: (a, b) => {
      const low = Math.min(find(a), find(b));
      const high = Math.max(find(a), find(b));
      up[high] = low;
    },
  };
}
