import { actorsIn } from './actors.ts';
import { breakConductor, groupOfBreak } from './breaks.ts';
import type { Budget } from './budget.ts';
import { composeCircuit } from './circuit.ts';
import type { Conductor } from './conductors.ts';
import { groupOf } from './grouping.ts';
import type { Group } from './groups.ts';
import { inputsIn, isHealthy, type SolvedInput, type SolvedMachine, solveWith } from './inputs.ts';
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
  /** The terminals that it cuts off from their node. */
  readonly cutOff: ReadonlySet<number>;
  /** The group that was solved for it; undefined where the break makes no difference. */
  readonly group: Group | undefined;
  /** The groups, as they are without a break, of which it is made. */
  readonly of: readonly Group[];
}

/** What was solved of breaks, by the identity of the conductor. It belongs to the newest version and changes with it. */
export type KnownBreaks = Map<object, FeltBreak>;

/** The break of a conductor, solved when it is first asked for. */
export type BreakOf = (conductor: Conductor) => FeltBreak;

/**
 * Makes the breaks of a machine available.
 * @param known those that were solved of earlier versions and are still what they were
 */
export function createBreaks(solved: SolvedMachine, known: KnownBreaks, budget: Budget): BreakOf {
  return (conductor) => {
    const there = known.get(conductor.id);
    if (there) return there;
    const felt = solveBreak(solved, conductor, budget);
    known.set(conductor.id, felt);
    return felt;
  };
}

/** Solves what feels a break, for all inputs that do; nobody does where it makes no difference. */
function solveBreak(solved: SolvedMachine, conductor: Conductor, budget: Budget): FeltBreak {
  const { board, held } = solved;
  const node = board.nodeOf[conductor.a] ?? 0;
  const felt = new Map<number, Both>();
  const broken = breakConductor(board, conductor);
  if (!broken) return { felt, node, cutOff: new Set(), group: undefined, of: [] };
  const group = groupOfBreak(solved, broken);
  const of = [...new Set(group.elements.flatMap((element) => groupOf(solved, element) ?? []))];
  const looking = healthyAmong(solved, group.elements, of);
  const byActor = groupByActor(looking);
  const whole = {
    felt,
    node,
    cutOff: broken.view.cutOff,
    group,
    of,
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

/** The healthy inputs among some elements, in their order. */
function healthyAmong(
  solved: SolvedMachine,
  elements: readonly number[],
  groups: readonly Group[],
): SolvedInput[] {
  const inside = new Set(elements);
  return groups
    .flatMap((each) => inputsIn(solved, each))
    .filter((input) => inside.has(input.element) && isHealthy(input))
    .sort((a, b) => a.element - b.element);
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
