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
  /** The last layout, by its number, in which it was found to be what it is here. */
  heldIn: number;
}

/** What was solved of breaks, for all versions of a machine. */
export interface KnownBreaks {
  /** By the identity of the conductor. */
  readonly byId: Map<object, FeltBreak>;
  /** The number of the layout, which no other layout of any machine has. */
  readonly layout: number;
}

let layouts = 0;

/** The breaks of a machine's conductors, each solved when it is first asked for. */
export interface Breaks {
  readonly known: KnownBreaks;
  readonly get: (conductor: Conductor) => FeltBreak;
  /** Whether a break was solved for an earlier version and is still what it was. */
  readonly isKept: (conductor: Conductor) => boolean;
}

/**
 * Makes the breaks of a machine available, taking over those of an earlier version that nothing touched. All versions share
 * one map: what was not asked for in a layout is known by its number to say nothing about the next.
 */
export function createBreaks(
  solved: SolvedMachine,
  healthy: readonly SolvedInput[],
  budget: Budget,
  before: Earlier | undefined,
): Breaks {
  const inputs = new Map(healthy.map((input) => [input.element, input]));
  const past = before?.faults.breaks;
  const layout = past && before?.changes.isSameLayout ? past.layout : ++layouts;
  const byId = past?.byId ?? new Map<object, FeltBreak>();
  if (layout === past?.layout) prune(byId, solved.board);
  else forgetUnasked(byId, past?.layout);
  const holds = (known: FeltBreak): boolean => {
    if (known.heldIn === layout)
      return !known.group || known.of.every((each) => each && hasGroup(solved, each));
    if (!before || known.heldIn !== past?.layout || !isUntouchedBreak(known, solved, before)) return false;
    known.heldIn = layout;
    return true;
  };
  return {
    known: { byId, layout },
    isKept: ({ id }) => {
      const known = byId.get(id);
      return known !== undefined && holds(known);
    },
    get: (conductor) => {
      const known = byId.get(conductor.id);
      if (known && holds(known)) return known;
      const felt = { ...solveBreak(solved, conductor, inputs, budget), heldIn: layout };
      byId.set(conductor.id, felt);
      return felt;
    },
  };
}

/** Lets go of what nobody asked for in the last layout: it says nothing any more, and holds on to circuits long gone. */
function forgetUnasked(breaks: Map<object, FeltBreak>, layout: number | undefined): void {
  for (const [id, { heldIn }] of breaks) if (heldIn !== layout) breaks.delete(id);
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
  if (!group) return !changes.nodes.has(node);
  return (
    of.every((each) => each && hasGroup(solved, each)) &&
    !group.nodes.some((each) => changes.nodes.has(each)) &&
    !(cutOff !== undefined && meet(cutOff, changes.terminals))
  );
}

/** Solves what feels a break, for all inputs that do; nobody does where it makes no difference. */
function solveBreak(
  solved: SolvedMachine,
  conductor: Conductor,
  inputs: ReadonlyMap<number, SolvedInput>,
  budget: Budget,
): Omit<FeltBreak, 'heldIn'> {
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
