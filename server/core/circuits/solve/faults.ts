import type { Link } from '../../model/wiring.ts';
import { createBudget } from './budget.ts';
import type { Changes } from './changes.ts';
import { createBreaks, type KnownBreaks } from './felt-breaks.ts';
import { createLosses, solveFaults } from './input-faults.ts';
import { isHealthy, type SolvedInput, type SolvedMachine } from './inputs.ts';
import type { Supply } from './rails.ts';
import type { Sight } from './reading.ts';
import { isSameAround, renewLinks, type Surroundings, surroundingsOf } from './surroundings.ts';
import { dropTouched, inputsConcerned } from './touched.ts';
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
  /** In the order of the machine; the same list while nothing in it is another. */
  readonly all: readonly InputFaults[];
  /** By element. It belongs to the newest version and changes with it. */
  readonly byInput: Map<number, InputFaults>;
  readonly breaks: KnownBreaks;
  /** False where the machine was too much to solve whole. */
  readonly isComplete: boolean;
}

/** The single faults of one input. */
export interface InputFaults extends Surroundings {
  readonly input: SolvedInput;
  readonly rows: readonly FaultRow[];
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
 * @param before what was solved for an earlier version, which no other has followed yet: only the faults of inputs
 *   that something was touched near are looked at again
 */
export function findFaults(solved: SolvedMachine, before?: Earlier): Faults {
  const { board } = solved;
  const budget = createBudget();
  const { byInput, breaks } = before?.faults ?? { byInput: new Map(), breaks: new Map() };
  const dropped: KnownBreaks = before ? dropTouched(solved, before) : new Map();
  const concerned = before ? inputsConcerned(solved, before, dropped) : byElement(solved.inputs);
  const shared = { breakOf: createBreaks(solved, breaks, budget), losses: createLosses(board), budget };
  const look = (input: SolvedInput, known: InputFaults | undefined): InputFaults => {
    const isInPlace = known !== undefined && before?.changes.isSameLayout === true;
    const around = isInPlace ? renewLinks(known, before.changes) : surroundingsOf(board, input);
    const isKept =
      known?.input.solution === input.solution &&
      isSameAround(known, around) &&
      !known.links.some(({ id }) => dropped.has(id));
    return isKept ? withInput(known, input) : solveFaults(solved, input, around, shared);
  };
  let isSame = before !== undefined;
  // In the order of the machine, since the budget is spent in it.
  for (const [element, input] of [...concerned].sort(([a], [b]) => a - b)) {
    const known = byInput.get(element);
    const found = input && isHealthy(input) ? look(input, known) : undefined;
    if (found) byInput.set(element, found);
    else byInput.delete(element);
    if (found !== known) isSame = false;
  }
  const all = isSame && before ? before.faults.all : inOrder(byInput);
  return { all, byInput, breaks, isComplete: !budget.isSpent() };
}

const byElement = (inputs: readonly SolvedInput[]): ReadonlyMap<number, SolvedInput> =>
  new Map(inputs.map((input) => [input.element, input]));

const inOrder = (byInput: Faults['byInput']): InputFaults[] =>
  [...byInput.values()].sort((a, b) => a.input.element - b.input.element);

/** Puts the input of a version in the place of the one that was, whose place in the text may differ. */
export function withInput(known: InputFaults, input: SolvedInput): InputFaults {
  return known.input === input
    ? known
    : { ...known, input, rows: known.rows.map((row) => ({ ...row, input })) };
}
