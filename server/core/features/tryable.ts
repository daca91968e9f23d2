import type { Analysis } from '../analysis.ts';
import { locate, pathOf } from '../syntax/locate.ts';
import { setAt } from './edit-path.ts';

/** A value of the text that can be tried with another one: its path and what it is now. */
export interface Tryable {
  readonly path: string;
  readonly now: string;
}

/** Sections whose values numbers follow from; a name or a link is not tried but changed. */
const SECTIONS: ReadonlySet<string> = new Set(['parts', 'axes', 'spindle', 'handwheel', 'records']);

/** The value at an offset that another one can be tried in place of; undefined on keys, names and links. */
export function tryableAt(analysis: Analysis, offset: number): Tryable | undefined {
  if (analysis.kind !== 'machine') return undefined;
  const { steps, scalar, onKey } = locate(analysis.tree, offset);
  const keys = pathOf(steps);
  if (!scalar || onKey || !SECTIONS.has(String(keys[0]))) return undefined;
  const path = keys.join('.');
  // Whatever can be set at its path can be tried; what stands inside braces of its own kind, perhaps not.
  const edited = setAt(analysis, path, scalar.text);
  return edited.kind === 'edited' && edited.before === scalar.text ? { path, now: scalar.text } : undefined;
}
