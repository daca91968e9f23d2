import type { Analysis } from '../analysis.ts';
import { findAll } from '../findings/find.ts';
import type { Finding } from '../findings/rule.ts';
import type { Fix } from '../problem.ts';
import { rangeOf } from '../syntax/tree.ts';

/** A change that cures a finding. */
export interface OfferedFix {
  readonly finding: Finding;
  readonly fix: Fix;
}

/** The fixes of all findings that touch a stretch of the text. */
export function listFixes(analysis: Analysis, from: number, to: number): OfferedFix[] {
  return findAll(analysis).flatMap((finding) => {
    const range = rangeOf(analysis.tree, finding.at);
    if (!range || range.to < from || to < range.from) return [];
    return (finding.fixes ?? []).map((fix) => ({ finding, fix }));
  });
}
