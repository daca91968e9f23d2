import { isSameList } from '../same-list.ts';
import { type Host, stillHolds } from './fact.ts';
import { noteRead, record, unrecorded } from './recording.ts';
import type { Evaluated, Reads, Version } from './version.ts';

/** A list, and what was worked out of each member at its place. */
interface Judged<E, T> {
  readonly list: readonly E[];
  readonly results: readonly T[];
}

/**
 * Makes a fact about each member of a list, such as each link. An edit that touches one member works out that one alone,
 * as long as whatever else was read for any of them is the same.
 * @param listOf the list; its members stay the same objects while nothing about them changes
 * @returns what was worked out, in the order of the list
 */
export function factOver<H extends Host, E, T>(
  kind: string,
  listOf: (host: H) => readonly E[],
  work: (host: H, each: E) => T,
): (host: H) => readonly T[] {
  const evaluate = (version: Version): readonly T[] => {
    const known = version.memoOf(self, undefined);
    if (known) return (known.result as Judged<E, T>).results;
    const host = version.hosts.get(kind) as H;
    const list = unrecorded(() => listOf(host));
    const memo = version.inheritedMemoOf(self, undefined);
    const before = memo?.reads && stillHolds(memo.reads, version) ? (memo.result as Judged<E, T>) : undefined;
    const { result, reads } = record(version, () => judge(list, before, (each) => work(host, each)));
    version.keep(self, undefined, { result, reads: before ? merge(memo?.reads, reads) : reads });
    return result.results;
  };
  const self: Evaluated = { evaluate };
  return ({ version }) => {
    const results = evaluate(version);
    noteRead(version, self, undefined, results);
    return results;
  };
}

/** Works out what is not known: what an edit changed stands together, so members are paired from both ends. */
function judge<E, T>(
  list: readonly E[],
  before: Judged<E, T> | undefined,
  work: (each: E) => T,
): Judged<E, T> {
  if (!before) return { list, results: list.map(work) };
  if (before.list === list) return before;
  const [past, count] = [before.list, list.length];
  let start = 0;
  while (start < count && start < past.length && list[start] === past[start]) start++;
  let end = 0;
  while (
    end < count - start &&
    end < past.length - start &&
    list[count - 1 - end] === past[past.length - 1 - end]
  )
    end++;
  const between = new Map(
    past.slice(start, past.length - end).map((each, place) => [each, before.results[start + place] as T]),
  );
  const results = [
    ...before.results.slice(0, start),
    ...list
      .slice(start, count - end)
      .map((each) => (between.has(each) ? (between.get(each) as T) : work(each))),
    ...before.results.slice(past.length - end),
  ];
  return { list, results: isSameList(before.results, results) ? before.results : results };
}

/** Adds what new members rest on to what all others do. */
function merge(all: Reads | undefined, more: Reads | undefined): Reads | undefined {
  if (!all || !more) return undefined;
  for (const [source, byKey] of more) {
    const there = all.get(source);
    if (!there) all.set(source, byKey);
    else for (const [key, value] of byKey) there.set(key, value);
  }
  return all;
}
