import { countSameEnds } from '../same-ends.ts';
import { isSameList } from '../same-list.ts';

/** What only one of two lists has. */
export interface Difference<E> {
  readonly gone: ReadonlySet<E>;
  readonly come: ReadonlySet<E>;
}

/** Compares two lists; where what both have stands in another order, what stands in that stretch counts as new. */
export function compareLists<E>(past: readonly E[], present: readonly E[]): Difference<E> {
  if (past === present) return { gone: new Set(), come: new Set() };
  const [start, end] = countSameEnds(past, present);
  const was = past.slice(start, past.length - end);
  const is = present.slice(start, present.length - end);
  const gone = new Set(was);
  const come = new Set(is);
  const stays = is.filter((member) => gone.has(member));
  const isInOrder = isSameList(
    stays,
    was.filter((member) => come.has(member)),
  );
  if (!isInOrder) return { gone: new Set(was.filter((member) => !come.has(member))), come };
  for (const member of stays) {
    gone.delete(member);
    come.delete(member);
  }
  return { gone, come };
}
