/**
 * How many members at the start, and how many at the end, two lists have in common. What an edit changed stands together,
 * so what is between is all that can differ.
 */
export function countSameEnds<A, B>(
  past: readonly A[],
  present: readonly B[],
  isSame: (was: A, is: B) => boolean,
): readonly [start: number, end: number] {
  const most = Math.min(past.length, present.length);
  const isSameAt = (was: number, is: number) => isSame(past[was] as A, present[is] as B);
  let start = 0;
  while (start < most && isSameAt(start, start)) start++;
  let end = 0;
  while (end < most - start && isSameAt(past.length - 1 - end, present.length - 1 - end)) end++;
  return [start, end];
}
