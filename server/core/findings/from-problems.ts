import type { Analysis } from '../analysis.ts';
import type { Found } from './rule.ts';

/** For findings that a reader of the text already noticed: those of its problems that have this code. */
export function fromProblems(code: string): (analysis: Analysis) => Iterable<Found> {
  return ({ problems }) => problems.filter((problem) => problem.code === code);
}
