import type { Host } from './fact.ts';
import { type Entry, MembersByReads } from './members.ts';
import { noteRead, recordList, unrecorded } from './recording.ts';
import { saysTheSame } from './same.ts';
import type { Evaluated, Version } from './version.ts';

/** All members with their results, in the order of the list. */
interface Judged<E, T> {
  readonly list: readonly E[];
  readonly entries: readonly Entry<E, T>[];
  readonly results: readonly T[];
  readonly byReads: MembersByReads<E, T>;
}

/** Judges a member; `past` is what was found of it before. */
type Judge<E, T> = (member: E, past?: Entry<E, T>) => Entry<E, T>;

/**
 * Makes a fact about each member of a list, such as each link. An edit works out anew the members that it made and those
 * that rest on what it changed; an index tells which these are, so the work grows with the edit and not with the list.
 * @param listOf the list; its members stay the same objects while nothing about them changes
 * @param settle the result of before where the new one of the same member says the same
 * @returns what was worked out, in the order of the list; the same list while every result is the same
 */
export function factOver<H extends Host, E, T>(
  kind: string,
  listOf: (host: H) => readonly E[],
  work: (host: H, member: E) => T,
  settle: (before: T, now: T) => T = (before, now) => (saysTheSame(before, now) ? before : now),
): (host: H) => readonly T[] {
  const evaluate = (version: Version): readonly T[] => {
    const known = version.memoOf(self, undefined);
    if (known) return (known.result as Judged<E, T>).results;
    const host = version.hosts.get(kind) as H;
    const list = unrecorded(() => listOf(host));
    const memo = version.inheritedMemoOf(self, undefined);
    const before = memo?.result as Judged<E, T> | undefined;
    const stale = before && unrecorded(() => before.byReads.findStale(memo?.heldIn ?? 0, version));
    const judge: Judge<E, T> = (member, past) => {
      const { result, reads } = recordList(version, () => work(host, member));
      return { member, result: past ? settle(past.result, result) : result, reads };
    };
    const judged =
      before && stale ? judgeAgain(before, stale, list, judge) : judgeAll(list, judge, version.isFollowed);
    version.keep(self, undefined, { result: judged, reads: undefined, heldIn: version.number });
    return judged.results;
  };
  const self: Evaluated = { evaluate };
  return ({ version }) => {
    const results = evaluate(version);
    noteRead(version, self, undefined, results);
    return results;
  };
}

function judgeAll<E, T>(list: readonly E[], judge: Judge<E, T>, isFollowed: boolean): Judged<E, T> {
  const entries = list.map((member) => judge(member));
  const byReads = new MembersByReads<E, T>();
  if (isFollowed) for (const entry of entries) byReads.add(entry);
  return { list, entries, results: resultsOf(entries), byReads };
}

/** Judges what is new or stale: what an edit changed stands together, so members are paired from both ends. */
function judgeAgain<E, T>(
  before: Judged<E, T>,
  stale: ReadonlySet<Entry<E, T>>,
  list: readonly E[],
  judge: Judge<E, T>,
): Judged<E, T> {
  const { entries: past, byReads } = before;
  const [start, end] = list === before.list ? [list.length, 0] : pairFromEnds(past, list);
  const replaced = past.slice(start, past.length - end);
  if (stale.size === 0 && replaced.length === 0 && list.length === past.length) return before;
  const known = new Map(replaced.map((entry) => [entry.member, entry]));
  const fresh: Entry<E, T>[] = [];
  const anew = (member: E, earlier?: Entry<E, T>): Entry<E, T> => {
    const entry = judge(member, earlier);
    fresh.push(entry);
    return entry;
  };
  const take = (entry: Entry<E, T>) => (stale.has(entry) ? anew(entry.member, entry) : entry);
  const takeAll = (some: Entry<E, T>[]) => (stale.size === 0 ? some : some.map(take));
  const between = list.slice(start, list.length - end).map((member) => {
    const entry = known.get(member);
    return entry ? take(entry) : anew(member);
  });
  const entries = takeAll(past.slice(0, start)).concat(between, takeAll(past.slice(past.length - end)));
  const kept = new Set(between);
  for (const entry of stale) byReads.remove(entry);
  for (const entry of replaced) if (!kept.has(entry)) byReads.remove(entry);
  for (const entry of fresh) byReads.add(entry);
  const isSame =
    entries.length === past.length &&
    entries.every((entry, place) => entry === past[place] || Object.is(entry.result, past[place]?.result));
  return { list, entries, results: isSame ? before.results : resultsOf(entries), byReads };
}

function resultsOf<E, T>(entries: readonly Entry<E, T>[]): T[] {
  return entries.map(({ result }) => result);
}

/** How many members at the start, and how many at the end, are those of before. */
function pairFromEnds<E, T>(past: readonly Entry<E, T>[], list: readonly E[]): readonly [number, number] {
  const most = Math.min(list.length, past.length);
  let start = 0;
  while (start < most && list[start] === past[start]?.member) start++;
  let end = 0;
  while (end < most - start && list[list.length - 1 - end] === past[past.length - 1 - end]?.member) end++;
  return [start, end];
}
