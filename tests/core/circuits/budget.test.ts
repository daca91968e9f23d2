import { expect, it } from 'vitest';
import { createBudget } from '../../../server/core/circuits/solve/budget.ts';
import type { Conductor } from '../../../server/core/circuits/solve/conductors.ts';

/** A group costs the square of its nodes, and 50 for each of its elements and wires. */
const group = (nodes: number, elements: number, wires: readonly Conductor[] = []) => ({
  name: '',
  nodes: Array.from({ length: nodes }, (_, node) => node),
  elements: Array.from({ length: elements }, (_, element) => element),
  wires,
  islands: [],
});

it('a budget allows a group as long as something is left of it, and is spent as soon as it has refused one', () => {
  const budget = createBudget(10 ** 2 + 50 + 1);
  expect([budget.allows(group(10, 1)), budget.isSpent()]).toEqual([true, false]);
  expect([budget.allows(group(1, 0)), budget.isSpent()]).toEqual([false, true]);
  expect([budget.allows(group(0, 0)), budget.isSpent()]).toEqual([false, true]);
});

it('wires cost as much as elements', () => {
  const wire: Conductor = {
    id: {},
    slot: { isLink: true },
    a: 0,
    b: 1,
    ohms: 1,
    link: undefined,
    inside: undefined,
  };
  const budget = createBudget(151);
  expect(budget.allows(group(0, 1, [wire, wire]))).toBe(true);
  expect(budget.allows(group(1, 0))).toBe(false);
});
