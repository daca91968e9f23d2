import { expect, it } from 'vitest';
import { type Edge, type Edges, findBlocks } from '../../../server/core/circuits/loops/blocks.ts';
import { sortByNumber } from '../../../server/core/circuits/loops/buckets.ts';
import { findCirculations } from '../../../server/core/circuits/loops/strong.ts';
import { createSets } from '../../../server/core/circuits/sets.ts';
import { makeRoom, solveSymmetric } from '../../../server/core/circuits/solve/matrix.ts';
import { type Random, randomFrom } from '../../support/random.ts';

/* What circuits are taken apart and solved with, held to the plainest way of finding the same, on small random graphs. */

const GRAPHS = 400;

function randomEdges(random: Random): { nodes: number; edges: Edge[] } {
  const nodes = 1 + random.below(6);
  const edges = Array.from({ length: random.below(9) }, () => ({
    a: random.below(nodes),
    b: random.below(nodes),
  }));
  return { nodes, edges };
}

const pack = (edges: readonly Edge[]): Edges => ({
  a: Int32Array.from(edges, ({ a }) => a),
  b: Int32Array.from(edges, ({ b }) => b),
});

/** Every loop of a graph that comes by no node twice, as the places of its edges. */
function loopsOf(nodes: number, edges: readonly Edge[]): number[][] {
  const loops: number[][] = [];
  const walk = (start: number, node: number, seen: readonly number[], path: readonly number[]): void => {
    for (const [place, { a, b }] of edges.entries()) {
      if (path.includes(place) || (a !== node && b !== node)) continue;
      const far = a === node ? b : a;
      if (far === start) loops.push([...path, place]);
      else if (!seen.includes(far)) walk(start, far, [...seen, far], [...path, place]);
    }
  };
  for (let start = 0; start < nodes; start++) walk(start, start, [start], []);
  return loops;
}

/** Whether two numbers are equal exactly where the others say so. */
const agree = (numbers: Int32Array, isSame: (one: number, other: number) => boolean): boolean =>
  numbers.every((number, one) => numbers.every((other, at) => (number === other) === isSame(one, at)));

it('edges are in one block exactly where they lie on one loop, with no gap in the numbers of blocks', () => {
  const random = randomFrom(11);
  for (let each = 0; each < GRAPHS; each++) {
    const { nodes, edges } = randomEdges(random);
    const loops = loopsOf(nodes, edges);
    const blockOf = findBlocks(nodes, pack(edges));
    const isRound = (one: number, other: number) =>
      one === other || loops.some((loop) => loop.includes(one) && loop.includes(other));
    expect(agree(blockOf, isRound), JSON.stringify(edges)).toBe(true);
    const numbers = [...new Set(blockOf)].sort((a, b) => a - b);
    expect(numbers).toEqual([...numbers.keys()]);
  }
});

it('nodes circulate together exactly where each can be reached from the other', () => {
  const random = randomFrom(12);
  for (let each = 0; each < GRAPHS; each++) {
    const { nodes, edges } = randomEdges(random);
    const isOneWay = Uint8Array.from(edges, () => random.below(2));
    const reaches = Array.from({ length: nodes }, (_, from) =>
      Array.from({ length: nodes }, (__, to) => from === to),
    );
    for (const [place, { a, b }] of edges.entries()) {
      (reaches[a] ?? [])[b] = true;
      if (!isOneWay[place]) (reaches[b] ?? [])[a] = true;
    }
    // Floyd and Warshall, 1962
    for (let by = 0; by < nodes; by++)
      for (const from of reaches)
        for (let to = 0; to < nodes; to++) if (from[by] && reaches[by]?.[to]) from[to] = true;
    const setOf = findCirculations(nodes, { ...pack(edges), isOneWay });
    const isBothWays = (one: number, other: number) =>
      reaches[one]?.[other] === true && reaches[other]?.[one] === true;
    expect(agree(setOf, isBothWays), JSON.stringify([edges, [...isOneWay]])).toBe(true);
  }
});

it('things stand in the bucket of their number, in their order', () => {
  const random = randomFrom(13);
  for (let each = 0; each < GRAPHS; each++) {
    const numbers = 1 + random.below(5);
    const things = Int32Array.from({ length: random.below(9) }, () => random.below(100));
    const numberOf = things.map(() => random.below(numbers));
    const { start, list } = sortByNumber(numbers, numberOf, things);
    const buckets = Array.from({ length: numbers }, (_, number) => [
      ...list.subarray(start[number], start[number + 1]),
    ]);
    expect(buckets).toEqual(
      Array.from({ length: numbers }, (_, number) => [
        ...things.filter((__, place) => numberOf[place] === number),
      ]),
    );
    expect(start[0]).toBe(0);
  }
});

it('numbers are in one set exactly where pairs join them, under the lowest of them', () => {
  const random = randomFrom(14);
  for (let each = 0; each < GRAPHS; each++) {
    const { nodes, edges } = randomEdges(random);
    const { find, join } = createSets(nodes);
    const lowest = Array.from({ length: nodes }, (_, node) => node);
    for (const { a, b } of edges) {
      join(a, b);
      const [one = 0, other = 0] = [lowest[a], lowest[b]];
      for (const [node, at] of lowest.entries())
        if (at === one || at === other) lowest[node] = Math.min(one, other);
    }
    expect(Array.from({ length: nodes }, (_, node) => find(node))).toEqual(lowest);
  }
});

/** Solves a system by elimination with the largest pivots, as any textbook has it. */
function eliminate(matrix: readonly (readonly number[])[], values: readonly number[]): number[] {
  const rows = matrix.map((row, at) => [...row, values[at] ?? 0]);
  const n = rows.length;
  for (let column = 0; column < n; column++) {
    const best = rows
      .slice(column)
      .toSorted((a, b) => Math.abs(b[column] ?? 0) - Math.abs(a[column] ?? 0))[0];
    if (!best) return [];
    const at = rows.indexOf(best);
    [rows[column], rows[at]] = [best, rows[column] ?? []];
    for (const row of rows) {
      if (row === best) continue;
      const factor = (row[column] ?? 0) / (best[column] ?? 1);
      for (let place = column; place <= n; place++)
        row[place] = (row[place] ?? 0) - factor * (best[place] ?? 0);
    }
  }
  return rows.map((row, at) => (row[n] ?? 0) / (row[at] ?? 1));
}

it('symmetric equations are solved as by plain elimination, larger and smaller ones in the same room', () => {
  const random = randomFrom(15);
  const room = makeRoom();
  for (let each = 0; each < GRAPHS; each++) {
    const n = 1 + random.below(7);
    // Conductances between random unknowns, and one from each to the reference: positive definite.
    const full = Array.from({ length: n }, () => new Array<number>(n).fill(0));
    const add = (row: number, column: number, by: number) => {
      const there = full[row] ?? [];
      there[column] = (there[column] ?? 0) + by;
    };
    for (let unknown = 0; unknown < n; unknown++) add(unknown, unknown, 1 / (1 + random.below(9)));
    for (let count = random.below(2 * n); count > 0; count--) {
      const [a, b] = [random.below(n), random.below(n)];
      if (a === b) continue;
      const conductance = 1 / (1 + random.below(9));
      add(a, a, conductance);
      add(b, b, conductance);
      add(a, b, -conductance);
      add(b, a, -conductance);
    }
    const right = full.map(() => random.below(19) - 9);
    const equations = room(n);
    expect([...equations.matrix.subarray(0, n * n), ...equations.values.subarray(0, n)].some(Boolean)).toBe(
      false,
    );
    for (const [row, entries] of full.entries()) {
      // What is above the diagonal is not read.
      for (const [column, entry] of entries.entries())
        equations.matrix[row * n + column] = column > row ? Number.NaN : entry;
      equations.values[row] = right[row] ?? 0;
    }
    solveSymmetric(equations, 1e-12);
    const wanted = eliminate(full, right);
    for (const [unknown, value] of wanted.entries()) expect(equations.values[unknown]).toBeCloseTo(value, 9);
  }
});

it('where nothing ties an unknown, the least pivot takes its place', () => {
  const equations = makeRoom()(2);
  equations.matrix.set([1, 0, 0, 0]);
  equations.values.set([3, 1]);
  solveSymmetric(equations, 0.5);
  expect([...equations.values.subarray(0, 2)]).toEqual([3, 2]);
});
