import { say } from '../../language/say.ts';
import type { Edit, Fix } from '../../problem.ts';

/** A fix that also writes down what it replaces, beside the measurement that asked for it. */
export function withNotes(fix: Fix, notes: readonly (Edit | undefined)[]): Fix {
  const edits = notes.filter((note) => note !== undefined);
  return edits.length === 0
    ? fix
    : { ...fix, title: say`${fix.title} and note what it replaces`, edits: [...fix.edits, ...edits] };
}
