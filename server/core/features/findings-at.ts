import type { Analysis } from '../analysis.ts';
import { findAll } from '../findings/find.ts';
import type { Finding } from '../findings/rule.ts';
import { rangeOf } from '../syntax/tree.ts';

/** The findings that touch a stretch of the text. */
export function listFindingsAt(analysis: Analysis, from: number, to: number): Finding[] {
  return findAll(analysis).filter(({ at }) => {
    const range = rangeOf(analysis.tree, at);
    return range !== undefined && range.to >= from && to >= range.from;
  });
}
