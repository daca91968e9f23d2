import { meet } from '../../meet.ts';
import { actorsIn } from './actors.ts';
import type { Board } from './board.ts';
import { breakConductor, groupOfBreak } from './breaks.ts';
import type { Budget } from './budget.ts';
import { composeCircuit } from './circuit.ts';
import type { Conductor } from './conductors.ts';
import type { Earlier } from './faults.ts';
import { groupOf, hasGroup } from './grouping.ts';
import type { Group } from './groups.ts';
import { type SolvedInput, type SolvedMachine, solveWith } from './inputs.ts';
import { nothing, readInput, type Sight } from './reading.ts';

/** What an input sees at rest and with its actor operated. */
export interface Both {
  readonly rest: Sight;
  readonly operated: Sight;
}

/** What cannot be solved within the bounds. */
export const TOO_LARGE: Both = { rest: nothing('too-large'), operated: nothing('too-large') };

/** What the inputs of a machine see while a conductor is broken. */
export interface FeltBreak {
  /** By the element of each healthy input that feels it. */
  readonly felt: ReadonlyMap<number, Both>;
  /** The node that falls apart. */
  readonly node: number;
  /** Undefined where the break makes no difference. */
  readonly cutOff: ReadonlySet<number> | undefined;
  /** The group that was solved for it. */
  readonly group: Group | undefined;
  /** The groups, as they are without a break, of which it is made. */
  readonly of: readonly (Group | undefined)[];
}

/** The breaks of a machine's conductors, each solved when it is first asked for. */
export interface Breaks {
  readonly all: Map<object, FeltBreak>;
  readonly get: (conductor: Conductor) => FeltBreak;
  /** Whether a break was solved for an earlier version and is still what it was. */
  readonly isKept: (conductor: Conductor) => boolean;
}

/**
 * Makes the breaks of a machine available, taking over those of an earlier version that nothing touched. While nothing
 * is joined otherwise, all versions share one map.
 */
export function createBreaks(
  solved: SolvedMachine,
  healthy: readonly SolvedInput[],
  budget: Budget,
  before: Earlier | undefined,
): Breaks {
  const inputs = new Map(healthy.map((input) => [input.element, input]));
  const past = before?.faults.breaks;
  const all = before?.changes.isSameLayout && past ? past : new Map<object, FeltBreak>();
  prune(all, solved.board);
  const keptOnes = new Map<object, boolean>();
  const keep = ({ id }: Conductor): boolean => {
    const known = past?.get(id);
    if (!before || !known || !isUntouchedBreak(known, solved, before)) return false;
    if (all !== past) all.set(id, known);
    return true;
  };
  const isKept = (conductor: Conductor): boolean => {
    let is = keptOnes.get(conductor.id);
    if (is === undefined) {
      is = keep(conductor);
      keptOnes.set(conductor.id, is);
    }
    return is;
  };
  const fresh = new Set<object>();
  return {
    all,
    isKept,
    get: (conductor) => {
      const { id } = conductor;
      const known = fresh.has(id) || isKept(conductor) ? all.get(id) : undefined;
      if (known) return known;
      const felt = solveBreak(solved, conductor, inputs, budget);
      all.set(id, felt);
      fresh.add(id);
      return felt;
    },
  };
}

/** Drops the breaks of conductors that are gone once there are more of them than of those that are there. */
function prune(breaks: Map<object, FeltBreak>, { conductors }: Board): void {
  if (breaks.size <= 2 * conductors.all.length) return;
  const present = new Set(conductors.all.map(({ id }) => id));
  for (const id of breaks.keys()) if (!present.has(id)) breaks.delete(id);
}

/** Groups that are still the same objects are untouched; what else a break depends on is how things are joined. */
function isUntouchedBreak(
  { group, cutOff, node, of }: FeltBreak,
  solved: SolvedMachine,
  { changes }: Earlier,
): boolean {
  const { isSameLayout } = changes;
  if (!group) return isSameLayout || !changes.nodes.has(node);
  if (!of.every((each) => each && hasGroup(solved, each))) return false;
  return (
    isSameLayout ||
    (!group.nodes.some((each) => changes.nodes.has(each)) &&
      !(cutOff !== undefined && meet(cutOff, changes.terminals)))
  );
}

/** Solves what feels a break, for all inputs that do; nobody does where it makes no difference. */
function solveBreak(
  solved: SolvedMachine,
  conductor: Conductor,
  inputs: ReadonlyMap<number, SolvedInput>,
  budget: Budget,
): FeltBreak {
  const { board, held } = solved;
  const node = board.nodeOf[conductor.a] ?? 0;
  const felt = new Map<number, Both>();
  const broken = breakConductor(board, conductor);
  if (!broken) return { felt, node, cutOff: undefined, group: undefined, of: [] };
  const group = groupOfBreak(board, broken);
  const looking = group.elements.flatMap((element) => inputs.get(element) ?? []);
  const byActor = groupByActor(looking);
  const whole = {
    felt,
    node,
    cutOff: broken.view.cutOff,
    group,
    of: [...new Set(group.elements.map((element) => groupOf(solved, element)))],
  };
  if (!budget.allows(group)) {
    for (const { element } of looking) felt.set(element, TOO_LARGE);
    return whole;
  }
  const circuit = composeCircuit(board, broken.view, group);
  const rest = solveWith(circuit, held);
  const actors = new Map(actorsIn(board, group).map((actor) => [actor.name, actor]));
  for (const [name, acted] of byActor) {
    const actor = actors.get(name);
    const isAllowed = budget.allows(group) || actor === undefined;
    const operated = actor && isAllowed ? solveWith(circuit, held, actor) : rest;
    for (const { element } of acted) {
      const both = { rest: readInput(rest, element), operated: readInput(operated, element) };
      felt.set(element, isAllowed ? both : TOO_LARGE);
    }
  }
  return whole;
}

/** Inputs by the actor that changes them most. */
function groupByActor(inputs: readonly SolvedInput[]): Map<string, SolvedInput[]> {
  const byActor = new Map<string, SolvedInput[]>();
  for (const input of inputs) {
    const name = input.operations[0]?.actor.name ?? '';
    const there = byActor.get(name);
    if (there) there.push(input);
    else byActor.set(name, [input]);
  }
  return byActor;
}
