import { expect, test } from 'vitest';
import { type Edge, type Edges, findBlocks } from '../../../server/core/circuits/loops/blocks.ts';
import { idleLegs } from '../../../server/core/circuits/loops/idle.ts';
import { findCirculations } from '../../../server/core/circuits/loops/strong.ts';
import type { Branch } from '../../../server/core/circuits/solve/branch.ts';
import { currentsOf, LEAK, solve } from '../../../server/core/circuits/solve/solver.ts';
import { randomFrom } from '../../support/random.ts';

/** What the loops of a network say of its currents, held to what it is solved to. */

function pack(edges: readonly Edge[]): Edges {
  return { a: Int32Array.from(edges, ({ a }) => a), b: Int32Array.from(edges, ({ b }) => b) };
}

test('blocks of two triangles that share a corner, with a tail', () => {
  const edges = [
    { a: 0, b: 1 },
    { a: 1, b: 2 },
    { a: 2, b: 0 },
    { a: 2, b: 3 },
    { a: 3, b: 4 },
    { a: 4, b: 2 },
    { a: 4, b: 5 },
  ];
  const [x, y, z, u, v, w, tail] = findBlocks(6, pack(edges));
  expect([y, z]).toEqual([x, x]);
  expect([v, w]).toEqual([u, u]);
  expect(new Set([x, u, tail]).size).toBe(3);
});

test('a chain of a hundred thousand edges is no depth', () => {
  const edges = Array.from({ length: 100_000 }, (_, a) => ({ a, b: a + 1 }));
  expect(new Set(findBlocks(100_001, pack(edges))).size).toBe(100_000);
  const oneWay = new Uint8Array(edges.length).fill(1);
  expect(new Set(findCirculations(100_001, { ...pack(edges), isOneWay: oneWay })).size).toBe(100_001);
  const bothWays = new Uint8Array(edges.length);
  expect(new Set(findCirculations(100_001, { ...pack(edges), isOneWay: bothWays })).size).toBe(1);
});

test('no current flows through what is idle, in two thousand random networks', () => {
  const random = randomFrom(20);
  let idle = 0;
  let live = 0;
  for (let round = 0; round < 2000; round++) {
    const nodes = 2 + random.below(7);
    const edges = Array.from({ length: 1 + random.below(10) }, () => ({
      a: random.below(nodes),
      b: random.below(nodes),
      // No few of the one add up to the other within the tolerance of supplies.
      drives: random.oneOf([0, 0, 0, 7, 100]),
      isOneWay: random.below(4) === 0,
    })).map((edge) => (edge.isOneWay ? { ...edge, drives: 0 } : edge));
    const branches = edges.map(({ a, b, drives, isOneWay }): Branch => {
      if (isOneWay) return { kind: 'diode', a, b, threshold: 0, slope: 100 };
      return { kind: 'source', a, b, volts: drives, ohms: 1000 };
    });
    const network = { nodes, reference: 0, branches };
    const outcome = solve(network);
    if (outcome.kind !== 'solved') continue;
    const amps = currentsOf(network, outcome);
    for (const [edge, isIdle] of idleLegs(edges, () => undefined).entries()) {
      if (isIdle) {
        idle += 1;
        // What the leak that keeps loose nodes solvable may make of nothing.
        expect(Math.abs(amps[edge] ?? 0)).toBeLessThan(1e3 * LEAK);
      } else if (Math.abs(amps[edge] ?? 0) > 1e-6) live += 1;
    }
  }
  expect(idle).toBeGreaterThan(1000);
  expect(live).toBeGreaterThan(1000);
});

test('between two rails that a supply holds only what lifts from the one to the other carries nothing', () => {
  // Node 0 is the zero of the island, node 1 is held at 12 V and node 2 at 24 V.
  const holdOf = (node: number) => ({ island: 0, volts: 12 * node });
  const between = (a: number, b: number, drives: number) =>
    idleLegs([{ a, b, drives, isOneWay: false }], holdOf)[0];
  expect(between(2, 1, 12)).toBe(1);
  expect(between(1, 2, -12)).toBe(1);
  expect(between(2, 0, 24)).toBe(1);
  expect(between(2, 1, 0)).toBe(0);
  expect(between(2, 1, -12)).toBe(0);
  expect(between(2, 1, 36)).toBe(0);
});
