import type { Analysis } from '../analysis.ts';
import { updateFollowing } from '../findings/setting/follow.ts';
import type { Fix } from '../problem.ts';
import { rangeOf } from '../syntax/tree.ts';

/** One action at a changed figure that updates every setting that follows from it. */
export function followUps(analysis: Analysis, from: number, to: number): Fix[] {
  if (analysis.kind !== 'machine') return [];
  const update = updateFollowing(analysis, (at) => {
    const range = rangeOf(analysis.tree, at);
    return range !== undefined && range.from <= to && range.to >= from;
  });
  return update ? [update] : [];
}
