import { describe, expect, it } from 'vitest';
import { holdRails, loseSupply, type Supply } from '../../../server/core/circuits/solve/rails.ts';
import { benchMachine } from './bench-parts.ts';
import { inputOf, solveText } from './machines.ts';

/* Which nodes supplies hold, and by how much. Here each terminal is a node of its own, called by its number. */

/** Some supply of the bench: what it is called makes no difference to what it holds. */
const { at } = inputOf(solveText(benchMachine(['reader'], [])), 'reader.down');
const supply = (plus: number, minus: number, volts: number): Supply => ({ at, plus, minus, volts });
const hold = (...supplies: readonly Supply[]) => holdRails(supplies, (terminal) => terminal);

/** How far one node is held above another one; undefined where they are on two islands. */
function between(
  holds: Pick<ReadonlyMap<number, { island: number; volts: number }>, 'get'>,
  a: number,
  b: number,
) {
  const [high, low] = [holds.get(a), holds.get(b)];
  return high && low && high.island === low.island ? high.volts - low.volts : undefined;
}

describe('supplies hold rails', () => {
  it('each its own, on islands of their own', () => {
    const { holds, conflicts } = hold(supply(1, 0, 24), supply(3, 2, 5));
    expect([between(holds, 1, 0), between(holds, 3, 2), between(holds, 1, 2)]).toEqual([24, 5, undefined]);
    expect([new Set(holds.keys()), conflicts]).toEqual([new Set([0, 1, 2, 3]), []]);
  });
  it.each([
    ['upon one another', [supply(1, 0, 24), supply(2, 1, 12)], 36],
    ['upon one another, the upper one first', [supply(2, 1, 12), supply(1, 0, 24)], 36],
    ['on one minus', [supply(1, 0, 24), supply(2, 0, 5)], 5],
    ['on one plus', [supply(1, 0, 24), supply(1, 2, 5)], 19],
    ['in a ring that comes out even', [supply(1, 0, 24), supply(2, 1, 12), supply(2, 0, 36)], 36],
  ])('%s', (_, supplies, volts) => {
    const { holds, conflicts } = hold(...supplies);
    expect([between(holds, 2, 0), conflicts]).toEqual([volts, []]);
  });
  it('joins islands that two others made before it', () => {
    const { holds } = hold(supply(1, 0, 24), supply(3, 2, 12), supply(2, 1, 5));
    expect([between(holds, 2, 0), between(holds, 3, 0)]).toEqual([29, 41]);
  });
});

describe('a supply that says otherwise than those before it', () => {
  const beside = (volts: number) => hold(supply(1, 0, 24), supply(1, 0, volts));
  it('is a conflict, and what is held stays', () => {
    const { holds, conflicts } = beside(48);
    expect(conflicts.map(({ supply: { volts }, heldAt }) => [volts, heldAt])).toEqual([[48, 24]]);
    expect(between(holds, 1, 0)).toBe(24);
  });
  it.each([
    [24.04, 0],
    [23.96, 0],
    [24.06, 1],
    [23.94, 1],
  ])('at %d V beside 24 V is within what a trim screw can tell, or not', (volts, count) => {
    expect(beside(volts).conflicts.length).toBe(count);
  });
  it('is one that is shorted', () => {
    const { conflicts } = hold(supply(0, 0, 24));
    expect(conflicts.map(({ heldAt }) => heldAt)).toEqual([0]);
  });
});

describe('the loss of a supply', () => {
  const lose = (lost: Supply, ...others: readonly Supply[]) => {
    const all = [lost, ...others];
    return loseSupply(hold(...all), all, lost, (terminal) => terminal);
  };
  it('pulls its plus down to its minus', () => {
    expect(between(lose(supply(1, 0, 24)), 1, 0)).toBe(0);
  });
  it('leaves those alone that others hold: beside it, on its minus and on another island', () => {
    expect(between(lose(supply(1, 0, 24), supply(1, 0, 24)), 1, 0)).toBe(24);
    const holds = lose(supply(1, 0, 24), supply(2, 0, 5), supply(4, 3, 12));
    expect([between(holds, 1, 0), between(holds, 2, 0), between(holds, 4, 3)]).toEqual([0, 5, 12]);
  });
  it('takes down what stands upon it', () => {
    const holds = lose(supply(1, 0, 24), supply(2, 1, 12));
    expect([between(holds, 1, 0), between(holds, 2, 0), holds.has(2), holds.has(3)]).toEqual([
      0,
      12,
      true,
      false,
    ]);
  });
});
