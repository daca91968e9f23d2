import type { Board } from '../circuits/solve/board.ts';
import { type Group, nodeAt } from '../circuits/solve/groups.ts';
import { inputsIn, type SolvedInput, type SolvedMachine } from '../circuits/solve/inputs.ts';
import type { Supply } from '../circuits/solve/rails.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';
import { currentsOf } from '../circuits/solve/solver.ts';
import type { Solution } from '../circuits/solve/states.ts';
import { type Reach, reachOf, slotsTo, type Ways, wayNetOf } from '../circuits/ways.ts';
import { groupBy } from '../group.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { factMap } from '../reuse/fact-map.ts';
import { isSameList } from '../same-list.ts';
import { formatBest } from '../units/index.ts';
import type { Draw } from './wire-draws.ts';

/** Currents below this are leaks, and nothing that a wire carries. */
const LEAST_AMPS = 1e-6;

/** What the circuits of one group carry, each in the state in which it is most. */
export interface SolvedCurrents {
  /** By the slot of a conductor: the most that flows through a wire of a signal in any of its states, in A. */
  readonly inWires: ReadonlyMap<object, number>;
  /** What the circuits take from the rails and give back, through the wires of these. */
  readonly draws: readonly Draw[];
}

/** What a group carries, whatever it hangs on. */
interface GroupCurrents {
  readonly group: Group;
  readonly inWires: ReadonlyMap<object, number>;
  readonly ends: readonly RailEnd[];
  /** The nodes of these, each once. */
  readonly nodes: readonly number[];
  /** What was read of it last. */
  last: Reading | undefined;
}

/** What a group draws from the supplies at its ends, which rests on what these reach. */
interface Reading {
  readonly ways: Ways;
  readonly read: readonly unknown[];
  readonly solved: SolvedCurrents;
}

/** A group that an edit did not touch is the same object as before, and carries what it carried. */
const keptCurrents = new WeakMap<Group, GroupCurrents>();

/** What the groups with inputs carry, in the order of these. */
const groupCurrents = fact(
  'machine',
  (machine: Machine, before: readonly GroupCurrents[] | undefined): readonly GroupCurrents[] => {
    const { solved } = circuitsOf(machine);
    const groups = [...new Set(solved.inputs.map((input) => input.group))];
    return groups.map((group, place) => {
      const there = before?.[place];
      return there?.group === group ? there : carriedBy(solved, group);
    });
  },
);

/** Reads the currents out of all circuits that were solved, group by group. */
export const solvedCurrents = fact('machine', (machine: Machine): readonly SolvedCurrents[] => {
  const { board } = circuitsOf(machine).solved;
  const ways = wayNetOf(machine);
  return groupCurrents(machine).map((currents) => readIn(ways, board, currents));
});

function readIn(ways: Ways, board: Board, currents: GroupCurrents): SolvedCurrents {
  const { inWires, ends, nodes, last } = currents;
  if (last?.ways === ways) return last.solved;
  const read: unknown[] = [];
  for (const node of nodes) {
    const there = board.supplyEndsOn.get(node) ?? [];
    read.push(there.length);
    for (const { supply, terminal } of there) read.push(supply, reachOf(ways, terminal, false));
  }
  const solved =
    last && isSameList(last.read, read) ? last.solved : { inWires, draws: drawsOf(ways, board, ends) };
  currents.last = { ways, read, solved };
  return solved;
}

/**
 * What coils, sensors and signals take from each supply at most, in A: each circuit in the state in which it takes most,
 * as it was solved.
 * @returns by `part.circuit` of the supply
 */
export const takenBySignals = factMap('machine', (machine: Machine): ReadonlyMap<string, number> => {
  const { supplyEndsOn } = circuitsOf(machine).solved.board;
  const taken = new Map<number, number>();
  for (const { ends } of groupCurrents(machine))
    for (const { node, amps } of ends) taken.set(node, (taken.get(node) ?? 0) + amps);
  const bySupply = new Map<string, number>();
  for (const [node, amps] of taken) {
    const fed = supplyEndsOn.get(node)?.find(({ supply, terminal }) => terminal === supply.plus);
    if (!fed) continue;
    const { part, circuit } = fed.supply.at;
    const name = `${part.name}.${circuit.name}`;
    bySupply.set(name, (bySupply.get(name) ?? 0) + amps);
  }
  return bySupply;
});

function carriedBy(solved: SolvedMachine, group: Group): GroupCurrents {
  const known = keptCurrents.get(group);
  if (known) return known;
  const { inWires, ends } = currentsOfGroup(inputsIn(solved, group));
  const carried = {
    group,
    inWires,
    ends,
    nodes: [...new Set(ends.map(({ node }) => node))],
    last: undefined,
  };
  keptCurrents.set(group, carried);
  return carried;
}

function currentsOfGroup(inputs: readonly SolvedInput[]): Pick<GroupCurrents, 'inWires' | 'ends'> {
  const solutions = new Set<Solution>();
  for (const { solution, operations } of inputs) {
    solutions.add(solution);
    for (const operation of operations) solutions.add(operation.solution);
  }
  const inWires = new Map<object, number>();
  const ends = new Map<string, RailEnd>();
  for (const solution of solutions) readSolution(solution, inWires, ends);
  return { inWires, ends: [...ends.values()] };
}

/** An end of a circuit that stands on a rail, and the most that flows there. */
interface RailEnd {
  readonly name: string;
  readonly terminal: number;
  readonly node: number;
  amps: number;
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

/** The ways from each end to the supply that the circuit as a whole hangs on: what comes out at one end goes in at another. */
function drawsOf(ways: Ways, board: Board, ends: readonly RailEnd[]): Draw[] {
  const touched = new Map<Supply, Set<number>>();
  for (const { node } of ends) {
    for (const { supply } of board.supplyEndsOn.get(node) ?? []) {
      touched.set(supply, (touched.get(supply) ?? new Set()).add(node));
    }
  }
  const draws: Draw[] = [];
  for (const [node, here] of groupBy(ends, (end) => end.node)) {
    const there = board.supplyEndsOn.get(node) ?? [];
    const most = Math.max(0, ...there.map(({ supply }) => touched.get(supply)?.size ?? 0));
    const shortest = there
      .filter(({ supply }) => touched.get(supply)?.size === most)
      .map(({ supply, terminal }) => wayTo(reachOf(ways, terminal, false), supply, here))
      .sort(byLength);
    for (const { name, terminal, amps } of here) {
      const path = shortest.find(({ paths }) => paths.has(terminal))?.paths.get(terminal);
      const input = { name, value: amps, shown: formatBest(amps, 'current', 4) };
      if (path) draws.push({ term: `{${name}}`, input, amps, path });
    }
  }
  return draws;
}

/** How all ends of a circuit on one rail reach a supply of that rail. */
interface WayToSupply {
  readonly name: string;
  /** By the terminal of the end; absent for an end that no wire leads to. */
  readonly paths: ReadonlyMap<number, readonly object[]>;
  readonly length: number;
}

function wayTo(reach: Reach, { at }: Supply, ends: readonly RailEnd[]): WayToSupply {
  const paths = new Map(
    ends.flatMap(({ terminal }): [number, readonly object[]][] => {
      const path = slotsTo(reach, terminal);
      return path ? [[terminal, path]] : [];
    }),
  );
  const length = [...paths.values()].reduce((sum, path) => sum + path.length, 0);
  return { name: `${at.part.name}.${at.circuit.name}`, paths, length };
}

/** The supply that most ends reach, by the shortest ways; the name decides between equals, whatever was written first. */
function byLength(a: WayToSupply, b: WayToSupply): number {
  return b.paths.size - a.paths.size || a.length - b.length || (a.name < b.name ? -1 : 1);
}
