/** How many members two lists have in common at their start, and how many at their end. */
export type SameEnds = readonly [start: number, end: number];

/** Of shorter lists it is found out as quickly as it is remembered. */
const LONG = 100;

/** What was found of the last list that a long one was compared with, which it must not keep in memory. */
const compared = new WeakMap<
  readonly unknown[],
  { readonly past: WeakRef<readonly unknown[]>; readonly ends: SameEnds }
>();

/**
 * What two lists have in common at their ends. What an edit changed stands together, so what is between is all that can
 * differ. Many ask the same of the same long lists, of all links say, so it is remembered; neither may change any more.
 */
export function countSameEnds(past: readonly unknown[], present: readonly unknown[]): SameEnds {
  if (past === present) return [past.length, 0];
  const known = compared.get(present);
  if (known?.past.deref() === past) return known.ends;
  const ends = compareFromEnds(past, present);
  if (present.length > LONG) compared.set(present, { past: new WeakRef(past), ends });
  return ends;
}

function compareFromEnds(past: readonly unknown[], present: readonly unknown[]): SameEnds {
  const most = Math.min(past.length, present.length);
  let start = 0;
  while (start < most && past[start] === present[start]) start++;
  const shift = present.length - past.length;
  let at = past.length;
  while (at > start && at + shift > start && past[at - 1] === present[at + shift - 1]) at--;
  return [start, past.length - at];
}

/** The same of members that are compared otherwise than by what they are. */
export function countSameEndsBy<A, B>(
  past: readonly A[],
  present: readonly B[],
  isSame: (was: A, is: B) => boolean,
): SameEnds {
  const most = Math.min(past.length, present.length);
  const isSameAt = (was: number, is: number) => isSame(past[was] as A, present[is] as B);
  let start = 0;
  while (start < most && isSameAt(start, start)) start++;
  let end = 0;
  while (end < most - start && isSameAt(past.length - 1 - end, present.length - 1 - end)) end++;
  return [start, end];
}
