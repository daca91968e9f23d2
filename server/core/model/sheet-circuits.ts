import { groupBy } from '../group.ts';
import { keptBy } from '../reuse/kept-by.ts';
import type { Circuit, Sheet } from './sheet.ts';

const byKind = keptBy(({ circuits }: Sheet) => groupBy(circuits.values(), ({ kind }) => kind));
const byWord = keptBy(({ circuits }: Sheet) => groupBy(circuits.values(), ({ does }) => does?.word));
const NONE: readonly Circuit[] = [];

/** The circuits of a sheet that are of one kind. */
export function circuitsIn(sheet: Sheet, kind: string): readonly Circuit[] {
  return byKind(sheet).get(kind) ?? NONE;
}

/** The circuits of a sheet that are used for something, e.g. `pulse`. */
export function circuitsFor(sheet: Sheet, word: string): readonly Circuit[] {
  return byWord(sheet).get(word) ?? NONE;
}
