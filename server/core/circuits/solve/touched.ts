import { meet } from '../../meet.ts';
import { compareLists } from '../../reuse/difference.ts';
import type { Board } from './board.ts';
import { linksFelt } from './breaks.ts';
import type { Changes } from './changes.ts';
import type { Conductor } from './conductors.ts';
import type { Earlier } from './faults.ts';
import type { FeltBreak, KnownBreaks } from './felt-breaks.ts';
import { hasGroup } from './grouping.ts';
import type { Group } from './groups.ts';
import { inputsIn, type SolvedInput, type SolvedMachine } from './inputs.ts';
import { partIn, whereaboutsOn } from './whereabouts.ts';

/*
 * What an edit touched is looked up by where it is, so that what is far from it is not even asked.
 */

/**
 * The inputs whose faults may be others than in an earlier version, by their elements; undefined for one that is gone.
 * @param dropped the breaks that the edit touched
 */
export function inputsConcerned(
  solved: SolvedMachine,
  before: Earlier,
  dropped: KnownBreaks,
): ReadonlyMap<number, SolvedInput | undefined> {
  const concerned = new Map<number, SolvedInput | undefined>();
  const groups = new Set(groupsTouched(before, solved.board));
  for (const { of } of dropped.values()) for (const group of of) groups.add(group);
  for (const group of groups)
    for (const input of inputsIn(before.solved, group)) concerned.set(input.element, input);
  const { gone, come } = compareLists(before.solved.inputs, solved.inputs);
  for (const { element } of gone) concerned.set(element, undefined);
  for (const input of come) concerned.set(input.element, input);
  return concerned;
}

/**
 * The groups of an earlier version around whose inputs something changed: on the nodes that their circuits end on, among
 * them those of the rails from which they are fed, or in the parts and cables that their signals come to.
 */
function groupsTouched({ solved, changes }: Earlier, board: Board): ReadonlySet<Group> {
  const { board: past, groups, places } = solved;
  const touched = new Set<Group>();
  const touch = (place = -1): void => {
    const group = groups[place];
    if (group) touched.add(group);
  };
  for (const node of changes.nodes) {
    touch(places.ofNode[node]);
    for (const terminal of past.terminalsOn(node))
      for (const element of past.elementsAt[terminal] ?? []) touch(places.ofElement[element]);
  }
  // What is beside a signal, and where, depends on nothing but how things are joined and laid.
  if (!changes.isSameLayout)
    for (const terminal of terminalsBeside(past, board, changes))
      touch(places.ofNode[past.nodeOf[terminal] ?? -1]);
  return touched;
}

/** The terminals, as they were, of the parts that have terminals where something changed, and of the cables that end there. */
function terminalsBeside(past: Board, board: Board, { terminals }: Changes): ReadonlySet<number> {
  const parts = new Set<string>();
  const cables = new Set<string>();
  for (const { conductors } of [past, board]) {
    for (const terminal of terminals) {
      const name = conductors.terminals[terminal];
      if (name !== undefined) parts.add(partIn(name));
      for (const place of conductors.at[terminal] ?? []) {
        const cable = conductors.all[place]?.link?.cable;
        if (cable !== undefined) cables.add(cable);
      }
    }
  }
  const { ofPart, ofCable } = whereaboutsOn(past);
  return new Set([...[...parts].flatMap(ofPart), ...[...cables].flatMap(ofCable)]);
}

/**
 * Drops the breaks that an edit touched: what is left is what it was.
 * @returns those that were dropped
 */
export function dropTouched(solved: SolvedMachine, before: Earlier): KnownBreaks {
  const { breaks } = before.faults;
  const dropped: KnownBreaks = new Map();
  const drop = (id: object): void => {
    const known = breaks.get(id);
    if (!known) return;
    dropped.set(id, known);
    breaks.delete(id);
  };
  for (const { id } of before.changes.replaced.keys()) drop(id);
  for (const { id } of conductorsConcerned(solved, before)) {
    const known = breaks.get(id);
    if (known && !isUntouched(known, solved, before.changes)) drop(id);
  }
  return dropped;
}

/** The conductors of before whose breaks may be touched: those of nodes that were, and what groups that were can feel. */
function conductorsConcerned(
  { groups }: SolvedMachine,
  { solved: { board, groups: past }, changes }: Earlier,
): ReadonlySet<Conductor> {
  const concerned = new Set<Conductor>();
  const nodes = changes.isSameLayout ? [] : changes.nodes;
  for (const node of nodes)
    for (const terminal of board.terminalsOn(node))
      for (const place of board.conductors.at[terminal] ?? []) {
        const conductor = board.conductors.all[place];
        if (conductor) concerned.add(conductor);
      }
  for (const group of compareLists(past, groups).gone)
    for (const conductor of linksFelt(board, group)) concerned.add(conductor);
  return concerned;
}

/** Groups that are still the same objects are untouched; what else a break depends on is how things are joined. */
function isUntouched(
  { group, cutOff, node, of }: FeltBreak,
  solved: SolvedMachine,
  changes: Changes,
): boolean {
  if (!group) return changes.isSameLayout || !changes.nodes.has(node);
  if (!of.every((each) => hasGroup(solved, each))) return false;
  return (
    changes.isSameLayout ||
    !(group.nodes.some((each) => changes.nodes.has(each)) || meet(cutOff, changes.terminals))
  );
}
