import { groupBy } from '../group.ts';
import { countSameEnds } from '../same-ends.ts';
import { keptBy } from './kept-by.ts';

/** What was worked out of a list. */
interface Mapped<E, T> {
  readonly list: readonly E[];
  readonly results: readonly T[];
}

/**
 * Makes a function that works something out of each member of a list, such as the items of a section. Of a list that follows
 * another one, as after an edit, only the members are asked that did not stand there. Nothing else may be read than the
 * member. What stands in a list twice has a result for each of its places.
 */
export function mapEach<E extends object, T>(work: (member: E) => T): (list: readonly E[]) => readonly T[] {
  // By the member at either end: an edit mostly leaves at least one of them as it was.
  const kept = new WeakMap<E, Mapped<E, T>>();
  return (list) => {
    const first = list[0];
    const last = list.at(-1);
    if (!first || !last) return [];
    const before = kept.get(first) ?? kept.get(last);
    const results = before ? mapAgain(before, list, work) : list.map(work);
    const mapped = { list, results };
    // Whoever stood at an end and still stands somewhere would keep the list of then in memory.
    for (const end of before ? [before.list[0], before.list.at(-1)] : []) if (end) kept.delete(end);
    for (const end of [first, last]) kept.set(end, mapped);
    return results;
  };
}

function mapAgain<E, T>(before: Mapped<E, T>, list: readonly E[], work: (member: E) => T): readonly T[] {
  const [start, end] = countSameEnds(before.list, list);
  const to = before.list.length - end;
  if (start === to && list.length === before.list.length) return before.results;
  const results = before.results.slice(start, to);
  const known = groupBy(results.keys(), (place) => before.list[start + place]);
  const between = list.slice(start, list.length - end).map((member) => {
    const place = known.get(member)?.shift();
    return place === undefined ? work(member) : (results[place] as T);
  });
  return before.results.slice(0, start).concat(between, before.results.slice(to));
}

/** The same of work that gives a list for each member, such as what is wrong with it: all of them as one list. */
export function flatMapEach<E extends object, T>(
  work: (member: E) => readonly T[],
): (list: readonly E[]) => readonly T[] {
  const lists = mapEach(work);
  const flatten = keptBy((found: readonly (readonly T[])[]): readonly T[] => found.flat());
  return (list) => flatten(lists(list));
}
