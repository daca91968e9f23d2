import { reachFrom } from '../circuits/reach-from.ts';
import type { CircuitAt } from '../circuits/signals.ts';
import type { SupplyEnd } from '../circuits/solve/board.ts';
import { type Group, nodeAt } from '../circuits/solve/groups.ts';
import { inputsIn, type SolvedInput, type SolvedMachine } from '../circuits/solve/inputs.ts';
import type { Supply } from '../circuits/solve/rails.ts';
import { circuitsOf } from '../circuits/solve/solved.ts';
import { currentsOf } from '../circuits/solve/solver.ts';
import type { Solution } from '../circuits/solve/states.ts';
import { type Reach, slotsTo } from '../circuits/ways.ts';
import { groupBy } from '../group.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { factIndex } from '../reuse/fact-index.ts';
import { factMap } from '../reuse/fact-map.ts';
import { factOver } from '../reuse/fact-over.ts';
import { formatBest } from '../units/index.ts';
import { type Draw, keepSameDraws } from './wire-draws.ts';

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

/** By node: the ends of supplies that are on it. */
const supplyEndsOn = factMap<Machine, number, readonly SupplyEnd[]>(
  'machine',
  (machine) => circuitsOf(machine).solved.board.supplyEndsOn,
  (a, b) =>
    a.length === b.length &&
    a.every(({ supply, terminal }, place) => supply === b[place]?.supply && terminal === b[place].terminal),
);

/** Reads the currents out of all circuits that were solved, group by group. */
export const solvedCurrents = factOver(
  'machine',
  groupCurrents,
  (machine: Machine, { inWires, ends }): SolvedCurrents => ({ inWires, draws: drawsOf(machine, ends) }),
  (before, now) => {
    const draws = keepSameDraws(before.draws, now.draws);
    return before.inWires === now.inWires && before.draws === draws ? before : { ...now, draws };
  },
);

/** By node: what coils, sensors and signals take there at most, in A; each circuit in the state in which it takes most. */
const takenAt = factIndex<Machine, GroupCurrents, number, number>(
  'machine',
  groupCurrents,
  ({ ends }) => ends.map(({ node }) => node),
  (groups, node) =>
    groups
      .flatMap(({ ends }) => ends.filter((end) => end.node === node))
      .reduce((sum, { amps }) => sum + amps, 0),
  Object.is,
);

/** By `part.circuit` of a supply: the node that its plus is on, where it is the first of the supplies on that. */
const nodesFed = factMap('machine', (machine: Machine): ReadonlyMap<string, number> => {
  const nodes = new Map<string, number>();
  for (const [node, there] of supplyEndsOn.all(machine)) {
    const fed = there.find(({ supply, terminal }) => terminal === supply.plus);
    if (fed) nodes.set(nameOf(fed.supply.at), node);
  }
  return nodes;
});

/** What coils, sensors and signals take from a supply at most, in A, as their circuits were solved. */
export function takenBySignals(machine: Machine, supply: CircuitAt): number {
  const node = nodesFed.get(machine, nameOf(supply));
  return node === undefined ? 0 : (takenAt.get(machine, node) ?? 0);
}

function carriedBy(solved: SolvedMachine, group: Group): GroupCurrents {
  const known = keptCurrents.get(group);
  if (known) return known;
  const { inWires, ends } = currentsOfGroup(inputsIn(solved, group));
  const carried = { group, inWires, ends };
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
      if (!known) ends.set(key, { name: nameOf(at), terminal, node, amps: current });
      else known.amps = Math.max(known.amps, current);
    }
  }
}

/** The ways from each end to the supply that the circuit as a whole hangs on: what comes out at one end goes in at another. */
function drawsOf(machine: Machine, ends: readonly RailEnd[]): readonly Draw[] {
  const touched = new Map<Supply, Set<number>>();
  for (const { node } of ends) {
    for (const { supply } of supplyEndsOn.get(machine, node) ?? []) {
      touched.set(supply, (touched.get(supply) ?? new Set()).add(node));
    }
  }
  const draws: Draw[] = [];
  for (const [node, here] of groupBy(ends, (end) => end.node)) {
    const there = supplyEndsOn.get(machine, node) ?? [];
    const most = Math.max(0, ...there.map(({ supply }) => touched.get(supply)?.size ?? 0));
    const shortest = there
      .filter(({ supply }) => touched.get(supply)?.size === most)
      .map(({ supply, terminal }) => wayTo(reachFrom(machine, terminal, false), supply, here))
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
  return { name: nameOf(at), paths, length };
}

/** The supply that most ends reach, by the shortest ways; the name decides between equals, whatever was written first. */
function byLength(a: WayToSupply, b: WayToSupply): number {
  return b.paths.size - a.paths.size || a.length - b.length || (a.name < b.name ? -1 : 1);
}

const nameOf = ({ part, circuit }: CircuitAt): string => `${part.name}.${circuit.name}`;
