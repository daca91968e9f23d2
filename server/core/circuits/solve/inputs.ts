import type { Machine } from '../../model/resolve.ts';
import { keyedInMeaning } from '../../model/settings.ts';
import type { CircuitAt } from '../signals.ts';
import { type Actor, actorsIn } from './actors.ts';
import { type Board, layBoard } from './board.ts';
import { type Budget, createBudget } from './budget.ts';
import { type Changes, isUntouched } from './changes.ts';
import { type Circuit, composeCircuit } from './circuit.ts';
import { findGroups, type Group, plainView } from './groups.ts';
import { type Level, nothing, readInput, type Sight } from './reading.ts';
import { coilsOf, heldRelays, isHeld } from './relays.ts';
import { type Solution, solveState } from './states.ts';

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
export interface SolvedMachine {
  readonly board: Board;
  /** Those that an edit did not touch are the same objects as before, so results can be kept under them. */
  readonly groups: readonly Group[];
  readonly groupOf: (element: number) => Group | undefined;
  /** Parts whose contacts are held in while the machine is on. */
  readonly held: ReadonlySet<string>;
  readonly inputs: readonly SolvedInput[];
  readonly byGroup: ReadonlyMap<Group, SolvedGroup>;
  /** False where the machine was too much to solve whole. */
  readonly isComplete: boolean;
}

/** What came of one group. */
interface SolvedGroup {
  readonly inputs: readonly SolvedInput[];
  /** How often the budget was asked. */
  readonly asked: number;
}

/**
 * Solves every group of a machine at rest and with each actor operated. Never throws: what has no solution says why.
 * @param before what was solved of an earlier version, and how the boards differ: untouched groups are taken over
 */
export function solveMachine(
  machine: Machine,
  board = layBoard(machine),
  before?: { readonly solved: SolvedMachine; readonly changes: Changes },
): SolvedMachine {
  const { groups, groupOf, held } = before ? regroup(board, before) : group(board);
  const budget = createBudget();
  const byGroup = new Map<Group, SolvedGroup>();
  for (const each of groups) {
    const known = before?.solved.byGroup.get(each);
    if (known) for (let ask = 0; ask < known.asked; ask++) budget.allows(each);
    byGroup.set(each, present(machine, known ?? solveGroup(board, held, each, budget)));
  }
  // With less than everything solved, what is taken over would depend on what came before.
  if (before && budget.isSpent()) return solveMachine(machine, board);
  const inputs = [...byGroup.values()].flatMap((solved) => solved.inputs);
  inputs.sort((a, b) => a.element - b.element);
  return { board, groups, groupOf, held, inputs, byGroup, isComplete: !budget.isSpent() };
}

type Grouping = Pick<SolvedMachine, 'groups' | 'groupOf' | 'held'>;

function group(board: Board): Grouping {
  const groups = findGroups(board);
  const groupOf = indexGroups(groups);
  return { groups, groupOf, held: heldRelays(board, groupOf) };
}

/** Cuts a board into groups anew, with the untouched ones of before in their places. */
function regroup(
  board: Board,
  { solved, changes }: { readonly solved: SolvedMachine; readonly changes: Changes },
): Grouping {
  const cut = findGroups(board);
  const cutOf = indexGroups(cut);
  const isHeldAsBefore = coilsOf(board).every(([place]) => {
    const each = cutOf(place);
    return each !== undefined && isUntouched(board, each, changes);
  });
  const held = isHeldAsBefore ? solved.held : heldRelays(board, cutOf);
  if (held !== solved.held) {
    for (const place of board.elements.keys())
      if (isHeld(board, held, place) !== isHeld(board, solved.held, place)) changes.elements.add(place);
  }
  const groups = cut.map((each) =>
    isUntouched(board, each, changes) ? (solved.groupOf(each.elements[0] ?? -1) ?? each) : each,
  );
  return { groups, groupOf: indexGroups(groups), held };
}

function indexGroups(groups: readonly Group[]): SolvedMachine['groupOf'] {
  const byElement = new Map<number, Group>();
  for (const each of groups) for (const element of each.elements) byElement.set(element, each);
  return (element) => byElement.get(element);
}

/** Puts the parts of a version in the place of those of an earlier one, whose places in the text may have moved. */
function present(machine: Machine, solved: SolvedGroup): SolvedGroup {
  const isMoved = ({ at }: SolvedInput) => machine.parts.get(at.part.name) !== at.part;
  if (!solved.inputs.some(isMoved)) return solved;
  const inputs = solved.inputs.map((input) => {
    const { part, circuit } = input.at;
    return isMoved(input) ? { ...input, at: { part: machine.parts.get(part.name) ?? part, circuit } } : input;
  });
  return { ...solved, inputs };
}

function solveGroup(board: Board, held: ReadonlySet<string>, group: Group, budget: Budget): SolvedGroup {
  const looking = group.elements.filter((element) => board.elements[element]?.reads !== undefined);
  if (looking.length === 0) return NOTHING_SEEN;
  const circuit = composeCircuit(board, plainView(board), group);
  const rest = solveWith(circuit, held);
  const actors = rest.outcome.kind === 'too-large' ? [] : actorsIn(board, group);
  const solutions = actors.map((actor) =>
    budget.allows(group) ? solveWith(circuit, held, actor) : undefined,
  );
  const inputs = looking.flatMap((element) => {
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
  return { inputs, asked: actors.length };
}

const NOTHING_SEEN: SolvedGroup = { inputs: [], asked: 0 };

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

/** What the part's settings say of an input; without settings it is looked at, and acts while it is electrically on. */
function senseOf(machine: Machine, { part, circuit }: CircuitAt): Sense {
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
