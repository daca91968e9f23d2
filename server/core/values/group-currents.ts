import type { Board, SupplyEnd } from '../circuits/solve/board.ts';
import { nodeAt } from '../circuits/solve/groups.ts';
import type { SolvedInput } from '../circuits/solve/inputs.ts';
import type { Supply } from '../circuits/solve/rails.ts';
import { currentsOf } from '../circuits/solve/solver.ts';
import { type Solution, solveState } from '../circuits/solve/states.ts';
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
  /** The most that the group takes from the rail in any state, without the parts that it feeds, in A. */
  readonly taken: number;
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
  const states = new Map<Solution, readonly number[]>();
  for (const { solution, operations } of inputs) {
    states.set(solution, []);
    for (const operation of operations) states.set(operation.solution, operation.actor.elements);
  }
  const read: Read = { inWires: new Map(), ends: new Map(), taken: new Map() };
  const rest = inputs[0]?.solution;
  const atRest = rest ? readSolution(rest, read) : 0;
  const raising: number[][] = [];
  for (const [solution, moved] of states)
    if (solution !== rest && readSolution(solution, read) > atRest + LEAST_AMPS) raising.push([...moved]);
  if (rest && raising.length > 1) readSolution(solveTogether(rest, new Set(raising.flat())), read);
  return { inWires: read.inWires, rails: railsOf(read, rest?.circuit.board) };
}

/**
 * What takes more by itself may do so together with all others that do: what they share carries the sum, and two contacts
 * beside each other carry one load between them.
 */
function solveTogether({ circuit, states }: Solution, moved: ReadonlySet<number>): Solution {
  return solveState(
    circuit,
    (element) => (states[circuit.partOf.get(element) ?? -1] === 'operated') !== moved.has(element),
  );
}

/** What was read of the states of a group so far. */
interface Read {
  readonly inWires: Map<object, number>;
  readonly ends: Map<string, RailEnd>;
  /** By the node of a rail: the most that was taken from it. */
  readonly taken: Map<number, number>;
}

function railsOf({ ends, taken }: Read, board: Board | undefined): RailEnds[] {
  const supplyEndsOn = (node: number): readonly SupplyEnd[] => board?.supplyEndsOn.get(node) ?? [];
  const byNode = groupBy([...ends.values()], ({ node }) => node);
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
      taken: taken.get(node) ?? 0,
      fedBy: there.find(({ supply, terminal }) => terminal === supply.plus)?.supply,
      supplies: there.filter((end) => countRails(end) === most),
    };
  });
}

/** @returns what is taken from all rails in this state, in A */
function readSolution({ circuit, composed, outcome }: Solution, { inWires, ends, taken }: Read): number {
  if (outcome.kind !== 'solved' || circuit.touchesMains) return 0;
  const { board, view, group, parts } = circuit;
  const amps = currentsOf(composed.network, outcome);
  const first = [...circuit.numberOf.keys()].filter((node) => view.holds.has(node)).length;
  for (const [index, { slot }] of group.wires.entries()) {
    const current = Math.abs(amps[first + index] ?? Number.NaN);
    if (current > Math.max(LEAST_AMPS, inWires.get(slot) ?? 0)) inWires.set(slot, current);
  }
  const net = new Map<number, number>();
  let switched = 0;
  for (const [index, { element, ends: numbers }] of parts.entries()) {
    const { at } = board.elements[element] ?? {};
    if (!at) continue;
    // What loads draw is counted with their supplies.
    const isFed = at.circuit.kind === 'power-in';
    const start = composed.starts[index] ?? 0;
    const end = composed.starts[index + 1] ?? composed.network.branches.length;
    for (const [which, terminal] of (board.endsOf[element] ?? []).entries()) {
      const node = nodeAt(board, view, terminal);
      const isOnRail = view.holds.has(node);
      if (isFed ? isOnRail || which !== 0 : !isOnRail) continue;
      let sum = 0;
      for (let branch = start; branch < end; branch++) {
        const { a, b } = composed.network.branches[branch] ?? {};
        if (a === numbers[which]) sum += amps[branch] ?? 0;
        if (b === numbers[which]) sum -= amps[branch] ?? 0;
      }
      const current = Math.abs(sum);
      if (!(current > LEAST_AMPS)) continue;
      if (isFed) {
        // It comes through a contact, so that it is in what flows at the end of that.
        switched += sum;
        continue;
      }
      net.set(node, (net.get(node) ?? 0) + sum);
      const key = `${element} ${which}`;
      const known = ends.get(key);
      if (!known)
        ends.set(key, { name: `${at.part.name}.${at.circuit.name}`, terminal, node, amps: current });
      else known.amps = Math.max(known.amps, current);
    }
  }
  let all = 0;
  const feeding = [...net].filter(([, amps]) => amps > 0);
  for (const [node, amps] of feeding) {
    // Of several rails nobody knows here which one feeds the load.
    const own = feeding.length === 1 ? Math.max(0, amps - switched) : amps;
    if (own > (taken.get(node) ?? 0)) taken.set(node, own);
    all += own;
  }
  return all;
}
