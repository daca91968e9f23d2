import type { Analysis } from '../analysis.ts';
import { findAll } from '../findings/find.ts';
import type { Edit } from '../problem.ts';
import { rangeOf } from '../syntax/tree.ts';

/** A text with more findings is no definition, and looking for a cure of each would take for ever. */
const MOST_FINDINGS = 2000;

/**
 * Every cure that keeps the meaning or restores the only possible one, together. Where two of them touch, the first
 * of the text is taken; the other is there again the next time.
 */
export function fixAll(analysis: Analysis): Edit[] {
  const taken: { from: number; to: number }[] = [];
  const all: Edit[] = [];
  for (const finding of findAll(analysis).slice(0, MOST_FINDINGS)) {
    const fix = (finding.fixes ?? []).find(({ safe, newFiles }) => safe && !newFiles);
    if (!fix) continue;
    const ranges = fix.edits.flatMap(({ at }) => rangeOf(analysis.tree, at) ?? []);
    const isFree = ranges.every(({ from, to }) => taken.every((other) => to < other.from || other.to < from));
    if (!isFree || ranges.length < fix.edits.length) continue;
    taken.push(...ranges);
    all.push(...fix.edits);
  }
  return all;
}
