import { keyedInMeaning } from '../../model/settings.ts';
import { isSameList } from '../../same-list.ts';
import type { CircuitAt } from '../signals.ts';
import { type Actor, actorsIn } from './actors.ts';
import { type Board, layBoard } from './board.ts';
import { type Budget, createBudget } from './budget.ts';
import type { Changes } from './changes.ts';
import { type Circuit, composeCircuit, moveTo } from './circuit.ts';
import { type Grouping, groupBoard, hasGroup, regroupBoard } from './grouping.ts';
import { type Group, plainView } from './groups.ts';
import { type Level, nothing, readInput, type Sight } from './reading.ts';
import { isHeld } from './relays.ts';
import { type Solution, solveState } from './states.ts';
import type { Wired } from './wired.ts';

/** What the settings of a part say of an input. */
interface Sense {
  /** Whether the function acts while the input is electrically on; it is the other way round for `on-when-open`. */
  readonly actsWhenOn: boolean;
  /** False where an `input-use` setting says that nobody looks at it. */
  readonly inUse: boolean;
}

/** Something that acts on an input, and what the input sees while it does. */
export interface Operation {
  readonly actor: Actor;
  readonly solution: Solution;
  readonly sight: Sight;
  readonly acts: boolean | undefined;
}

/** An input, or a coil, in its states. */
export interface SolvedInput {
  readonly at: CircuitAt;
  /** Its place on the board. */
  readonly element: number;
  readonly group: Group;
  readonly sense: Sense;
  /** While nothing is operated and everything that holds itself in is held. */
  readonly solution: Solution;
  readonly rest: Sight;
  /** Whether its function acts then; undefined where that cannot be told. */
  readonly acts: boolean | undefined;
  /** With each actor of its group operated alone; those that change nothing for it are left out. */
  readonly operations: readonly Operation[];
  /** Actors of its group that change nothing for it. */
  readonly idle: readonly Actor[];
}

/** A machine with all its circuits solved in all their states. */
export interface SolvedMachine extends Grouping {
  /** In the order of their elements. */
  readonly inputs: readonly SolvedInput[];
  /** The inputs of each group, at the place of the group. */
  readonly byGroup: readonly (readonly SolvedInput[])[];
  /** False where the machine was too much to solve whole. */
  readonly isComplete: boolean;
}

/** What was solved of an earlier version, and how the boards differ. */
export interface EarlierSolved {
  readonly solved: SolvedMachine;
  readonly changes: Changes;
}

/**
 * Solves every group of a machine at rest and with each actor operated. Never throws: what has no solution says why.
 * @param before what was solved of an earlier version: untouched groups are taken over
 */
export function solveMachine(
  machine: Wired,
  board = layBoard(machine),
  before?: EarlierSolved,
): SolvedMachine {
  const grouping = before ? regroupBoard(board, before.solved, before.changes) : groupBoard(board);
  const budget = createBudget();
  // With no part's text changed, everything of an untouched group still stands where it stood.
  const isInPlace = before !== undefined && hasSameParts(machine, before.solved.board.machine);
  const byGroup = grouping.groups.map((group) => {
    const known = before && hasGroup(before.solved, group) ? inputsIn(before.solved, group) : undefined;
    if (known && isInPlace) return known;
    return present(machine, known ?? solveGroup(board, grouping.held, group, budget));
  });
  if (before) for (const [first] of byGroup) if (first) moveTo(board, first.solution.circuit);
  const inputs = inOrder(byGroup, before?.solved);
  return { ...grouping, inputs, byGroup, isComplete: !budget.isSpent() };
}

function hasSameParts(a: Wired, b: Wired): boolean {
  return a.parts === b.parts || isSameList([...a.parts.values()], [...b.parts.values()]);
}

/** All inputs in the order of their elements; the list of before where none of them is new. */
function inOrder(
  byGroup: SolvedMachine['byGroup'],
  before: SolvedMachine | undefined,
): readonly SolvedInput[] {
  const isSame =
    before?.byGroup.length === byGroup.length &&
    byGroup.every((inputs, place) => inputs === before.byGroup[place]);
  return isSame ? before.inputs : byGroup.flat().sort((a, b) => a.element - b.element);
}

/** The inputs in a group. */
export function inputsIn({ places, byGroup }: SolvedMachine, { elements }: Group): readonly SolvedInput[] {
  return byGroup[places.ofElement[elements[0] ?? -1] ?? -1] ?? [];
}

/** Puts the parts of a version in the place of those of an earlier one, whose places in the text may have moved. */
function present(machine: Wired, inputs: readonly SolvedInput[]): readonly SolvedInput[] {
  const isMoved = ({ at }: SolvedInput) => machine.parts.get(at.part.name) !== at.part;
  if (!inputs.some(isMoved)) return inputs;
  return inputs.map((input) => {
    const { part, circuit } = input.at;
    return isMoved(input) ? { ...input, at: { part: machine.parts.get(part.name) ?? part, circuit } } : input;
  });
}

function solveGroup(board: Board, held: ReadonlySet<string>, group: Group, budget: Budget): SolvedInput[] {
  const looking = group.elements.filter((element) => board.elements[element]?.reads !== undefined);
  if (looking.length === 0) return [];
  const circuit = composeCircuit(board, plainView(board), group);
  const rest = solveWith(circuit, held);
  const actors = rest.outcome.kind === 'too-large' ? [] : actorsIn(board, group);
  const solutions = actors.map((actor) =>
    budget.allows(group) ? solveWith(circuit, held, actor) : undefined,
  );
  return looking.flatMap((element) => {
    const { at, reads } = board.elements[element] ?? {};
    if (!at || !reads) return [];
    const sense = senseOf(board.machine, at);
    const seen = readInput(rest, element);
    const operations: Operation[] = [];
    const idle: Actor[] = [];
    for (const [index, actor] of actors.entries()) {
      const solution = solutions[index] ?? rest;
      const sight = solutions[index] ? readInput(solution, element) : nothing('too-large');
      if (actor.mover === 'relay' && actor.part === at.part.name) continue;
      if (isSame(seen, sight, reads.unit)) idle.push(actor);
      else operations.push({ actor, solution, sight, acts: actsAt(sight.level, sense) });
    }
    // The one that changes most first: it is what the input is there for.
    operations.sort((a, b) => changeFrom(seen, b.sight) - changeFrom(seen, a.sight));
    return [
      {
        at,
        element,
        group,
        sense,
        solution: rest,
        rest: seen,
        acts: actsAt(seen.level, sense),
        operations,
        idle,
      },
    ];
  });
}

/** Solves a circuit at rest, or with one actor operated. */
export function solveWith(circuit: Circuit, held: ReadonlySet<string>, actor?: Actor): Solution {
  return solveState(
    circuit,
    (element) => isHeld(circuit.board, held, element) !== (actor?.elements.includes(element) ?? false),
  );
}

/** Whether the function of an input acts at a level; undefined between the thresholds and where nothing is known. */
export function actsAt(level: Level, { actsWhenOn }: Sense): boolean | undefined {
  if (level === 'on') return actsWhenOn;
  return level === 'off' ? !actsWhenOn : undefined;
}

/** An input in use whose function is told apart from its rest by what acts on it. */
export function isHealthy({ acts, operations, sense }: SolvedInput): boolean {
  const operated = operations[0]?.acts;
  return sense.inUse && acts !== undefined && operated !== undefined && acts !== operated;
}

/** What the part's settings say of an input; without settings it is looked at, and acts while it is electrically on. */
function senseOf(machine: Wired, { part, circuit }: CircuitAt): Sense {
  const of = { circuit: circuit.name };
  const sense = keyedInMeaning(machine.file, part, 'input-sense', of)?.scalar.text;
  const use = keyedInMeaning(machine.file, part, 'input-use', of)?.scalar.text;
  return { actsWhenOn: sense !== 'on-when-open', inUse: use !== 'off' };
}

/** Differences below a thousandth of the larger value, or below what the leak may make (1 mV, 1 uA), are no change. */
function isSame(a: Sight, b: Sight, unit: 'V' | 'A'): boolean {
  if (a.level !== b.level || a.trouble !== b.trouble) return false;
  const least = unit === 'V' ? 1e-3 : 1e-6;
  return changeFrom(a, b) <= Math.max(least, 1e-3 * Math.abs(a.value ?? 0), 1e-3 * Math.abs(b.value ?? 0));
}

function changeFrom(a: Sight, b: Sight): number {
  if (a.value === undefined || b.value === undefined) return a.value === b.value ? 0 : Number.MAX_VALUE;
  return Math.abs(a.value - b.value);
}
