import type { Analysis } from '../analysis.ts';
import type { Fix } from '../problem.ts';
import { locate, type Step } from '../syntax/locate.ts';

/** What a refactoring does, in the protocol's words. */
export type RefactoringKind = 'refactor.extract' | 'refactor.inline' | 'refactor.rewrite';

/** A change that keeps the meaning, or changes it wholly and knowingly, where nothing is wrong. */
export interface Refactoring extends Pick<Fix, 'title' | 'edits' | 'newFiles'> {
  readonly kind: RefactoringKind;
}

/** Where somebody asks what could be done: the cursor or a selection, and what stands at its start. */
export interface Place {
  readonly analysis: Analysis;
  readonly from: number;
  readonly to: number;
  readonly steps: readonly Step[];
}

/** Reads what stands at a place. */
export function placeAt(analysis: Analysis, from: number, to: number): Place {
  return { analysis, from, to, steps: locate(analysis.tree, from).steps };
}

/** True at the name of a part, between its entries, or at its sheet: not at whatever else is said of it. */
export function isAtPart({ steps }: Place): boolean {
  const [, , third] = steps;
  return steps.length === 2 || (third?.kind === 'pair' && third.pair.key.text === 'sheet');
}
