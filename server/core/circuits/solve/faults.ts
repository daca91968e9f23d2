import type { Link } from '../../model/wiring.ts';
import { createBudget } from './budget.ts';
import type { Changes } from './changes.ts';
import { type Breaks, createBreaks, type KnownBreaks } from './felt-breaks.ts';
import type { Group } from './groups.ts';
import { createLosses, solveFaults } from './input-faults.ts';
import type { SolvedInput, SolvedMachine } from './inputs.ts';
import type { Supply } from './rails.ts';
import type { Sight } from './reading.ts';
import { createSurroundings, isSameAround, type Surroundings } from './surroundings.ts';
import type { Verdict } from './verdict.ts';

/** One thing that can go wrong with the wiring of an input. */
export type Fault =
  | { readonly kind: 'broken'; readonly link: Link }
  /** A terminal on the way of the input's signal touches a rail, which is named by one of its own. */
  | {
      readonly kind: 'shorted';
      readonly terminal: string;
      readonly rail: string;
      readonly volts: number;
    }
  /** The contact of a part stays closed; of a changeover one of its two sides does. */
  | {
      readonly kind: 'welded';
      readonly part: string;
      readonly circuit: string;
      readonly side?: 'closed' | 'open';
    }
  | { readonly kind: 'supply-lost'; readonly supply: Supply };

/** What a fault does to an input. */
export interface FaultRow {
  readonly input: SolvedInput;
  readonly fault: Fault;
  readonly rest: Sight;
  /** With the actor operated that changes the healthy input most. */
  readonly operated: Sight;
  readonly verdict: Verdict;
}

/** The single faults of a machine, and what was solved for them, so that the next version can take it over. */
export interface Faults {
  readonly rows: readonly FaultRow[];
  /** By element. */
  readonly byInput: ReadonlyMap<number, InputFaults>;
  readonly breaks: KnownBreaks;
  /** False where the machine was too much to solve whole. */
  readonly isComplete: boolean;
}

/** The single faults of one input. */
export interface InputFaults extends Surroundings {
  readonly input: SolvedInput;
  readonly rows: readonly FaultRow[];
  /** The groups that feel the breaks of its links. */
  readonly groups: ReadonlySet<Group | undefined>;
}

/** What an earlier version found, and what is different now. */
export interface Earlier {
  readonly solved: SolvedMachine;
  readonly faults: Faults;
  readonly changes: Changes;
}

/**
 * Solves every single fault of every input whose function is known to act while it is healthy: what never acts is
 * a mistake of another kind. Faults that change nothing are left out.
 * @param before what was solved for an earlier version: faults of untouched circuits are taken over
 */
export function findFaults(solved: SolvedMachine, before?: Earlier): Faults {
  const { board } = solved;
  const budget = createBudget();
  const healthy = solved.inputs.filter(isHealthy);
  const breaks = createBreaks(solved, healthy, budget, before);
  const losses = createLosses(board);
  const surroundings = createSurroundings(
    board,
    before && { board: before.solved.board, changes: before.changes },
  );
  const haveBreaksChanged = createBreakCheck(solved, breaks, before);
  const byInput = new Map<number, InputFaults>();
  for (const input of healthy) {
    const known = before?.faults.byInput.get(input.element);
    const around = surroundings.of(input, known);
    const isKept =
      known !== undefined &&
      known.input.solution === input.solution &&
      isSameAround(known, around) &&
      !haveBreaksChanged(known, around);
    byInput.set(
      input.element,
      isKept
        ? presentFaults(known, input, around)
        : solveFaults(solved, input, around, { breaks, losses, budget }),
    );
  }
  const rows = [...byInput.values()].flatMap((found) => found.rows);
  return { rows, byInput, breaks: breaks.known, isComplete: !budget.isSpent() };
}

/**
 * Makes the question whether the breaks of an input's links have other consequences than before. While nothing is
 * joined otherwise that is so just where one of the groups that feel them was touched.
 */
function createBreakCheck(
  solved: SolvedMachine,
  breaks: Breaks,
  before: Earlier | undefined,
): (known: InputFaults, around: Surroundings) => boolean {
  if (!before?.changes.isSameLayout) return (_, { links }) => !links.every(breaks.isKept);
  const touched = before.solved.groups.filter((group, place) => solved.groups[place] !== group);
  return ({ groups }) => touched.some((group) => groups.has(group));
}

/** An input in use whose function is told apart from its rest by what acts on it. */
function isHealthy({ acts, operations, sense }: SolvedInput): boolean {
  const operated = operations[0]?.acts;
  return sense.inUse && acts !== undefined && operated !== undefined && acts !== operated;
}

/** Puts the input of this version in the place of the one that was, whose place in the text may differ. */
function presentFaults(known: InputFaults, input: SolvedInput, around: Surroundings): InputFaults {
  if (known.input === input) return known.near === around.near ? known : { ...known, ...around };
  return { ...known, ...around, input, rows: known.rows.map((row) => ({ ...row, input })) };
}
