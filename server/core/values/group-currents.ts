import type { SupplyEnd } from '../circuits/solve/board.ts';
import { nodeAt } from '../circuits/solve/groups.ts';
import type { SolvedInput } from '../circuits/solve/inputs.ts';
import type { Supply } from '../circuits/solve/rails.ts';
import { currentsOf } from '../circuits/solve/solver.ts';
import type { Solution } from '../circuits/solve/states.ts';
import { groupBy } from '../group.ts';

/** Currents below this are leaks, and nothing that a wire carries. */
const LEAST_AMPS = 1e-6;

/** What the circuits of a group carry, each in the state in which it is most, whatever its rails reach. */
export interface GroupCurrents {
  /** By the slot of a conductor: the most that flows through a wire of a signal in any of its states, in A. */
  readonly inWires: ReadonlyMap<object, number>;
  readonly rails: readonly RailEnds[];
}

/** The ends of a group's circuits that stand on one rail. */
export interface RailEnds {
  readonly ends: readonly RailEnd[];
  /** The supply whose plus holds the rail; the first of several. */
  readonly fedBy: Supply | undefined;
  /** Those supplies at the rail that hold most of the group's rails: the group as a whole hangs on one of these. */
  readonly supplies: readonly SupplyEnd[];
}

/** An end of a circuit that stands on a rail, and the most that flows there. */
export interface RailEnd {
  readonly name: string;
  readonly terminal: number;
  readonly node: number;
  amps: number;
}

/** Reads the currents out of the circuits of a group, by the inputs in it. */
export function currentsOfGroup(inputs: readonly SolvedInput[]): GroupCurrents {
  const solutions = new Set<Solution>();
  for (const { solution, operations } of inputs) {
    solutions.add(solution);
    for (const operation of operations) solutions.add(operation.solution);
  }
  const inWires = new Map<object, number>();
  const ends = new Map<string, RailEnd>();
  for (const solution of solutions) readSolution(solution, inWires, ends);
  const board = inputs[0]?.solution.circuit.board;
  return { inWires, rails: railsOf([...ends.values()], (node) => board?.supplyEndsOn.get(node) ?? []) };
}

function railsOf(ends: readonly RailEnd[], supplyEndsOn: (node: number) => readonly SupplyEnd[]): RailEnds[] {
  const byNode = groupBy(ends, ({ node }) => node);
  const touched = new Map<Supply, Set<number>>();
  for (const node of byNode.keys())
    for (const { supply } of supplyEndsOn(node))
      touched.set(supply, (touched.get(supply) ?? new Set()).add(node));
  const countRails = ({ supply }: SupplyEnd): number => touched.get(supply)?.size ?? 0;
  return [...byNode].map(([node, here]) => {
    const there = supplyEndsOn(node);
    const most = Math.max(0, ...there.map(countRails));
    return {
      ends: here,
      fedBy: there.find(({ supply, terminal }) => terminal === supply.plus)?.supply,
      supplies: there.filter((end) => countRails(end) === most),
    };
  });
}

function readSolution(solution: Solution, inWires: Map<object, number>, ends: Map<string, RailEnd>): void {
  const { circuit, composed, outcome } = solution;
  if (outcome.kind !== 'solved' || circuit.touchesMains) return;
  const { board, view, group, parts } = circuit;
  const amps = currentsOf(composed.network, outcome);
  const first = [...circuit.numberOf.keys()].filter((node) => view.holds.has(node)).length;
  for (const [index, { slot }] of group.wires.entries()) {
    const current = Math.abs(amps[first + index] ?? Number.NaN);
    if (current > Math.max(LEAST_AMPS, inWires.get(slot) ?? 0)) inWires.set(slot, current);
  }
  for (const [index, { element, ends: numbers }] of parts.entries()) {
    const { at } = board.elements[element] ?? {};
    // What loads draw is counted with their supplies.
    if (!at || at.circuit.kind === 'power-in') continue;
    const start = composed.starts[index] ?? 0;
    const end = composed.starts[index + 1] ?? composed.network.branches.length;
    for (const [which, terminal] of (board.endsOf[element] ?? []).entries()) {
      const node = nodeAt(board, view, terminal);
      if (!view.holds.has(node)) continue;
      let sum = 0;
      for (let branch = start; branch < end; branch++) {
        const { a, b } = composed.network.branches[branch] ?? {};
        if (a === numbers[which]) sum += amps[branch] ?? 0;
        if (b === numbers[which]) sum -= amps[branch] ?? 0;
      }
      const current = Math.abs(sum);
      if (!(current > LEAST_AMPS)) continue;
      const key = `${element} ${which}`;
      const known = ends.get(key);
      if (!known)
        ends.set(key, { name: `${at.part.name}.${at.circuit.name}`, terminal, node, amps: current });
      else known.amps = Math.max(known.amps, current);
    }
  }
}
