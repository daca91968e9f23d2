import { countSameEnds } from '../same-ends.ts';
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
  return { list, entries, results: entries.map(resultOf), byReads };
}

/** Judges what is new or stale: what an edit changed stands together, so members are paired from both ends. */
function judgeAgain<E, T>(
  before: Judged<E, T>,
  stale: ReadonlySet<Entry<E, T>>,
  list: readonly E[],
  judge: Judge<E, T>,
): Judged<E, T> {
  const { entries: past, byReads } = before;
  const [start, end] = list === before.list ? [list.length, 0] : countSameEnds(before.list, list);
  const replaced = past.slice(start, past.length - end);
  if (stale.size === 0 && replaced.length === 0 && list.length === past.length) return before;
  const known = new Map(replaced.map((entry) => [entry.member, entry]));
  const between = list.slice(start, list.length - end).map((member) => {
    const entry = known.get(member);
    return entry && !stale.has(entry) ? entry : judge(member, entry);
  });
  const elsewhere = placesOf(stale, past)
    .filter((place) => place < start || place >= past.length - end)
    .map((place) => ({ place, was: past[place] as Entry<E, T> }))
    .map(({ place, was }) => ({ place, was, is: judge(was.member, was) }));
  const [gone, kept] = [new Set(replaced), new Set(between)];
  for (const entry of stale) byReads.remove(entry);
  for (const entry of replaced) if (!kept.has(entry)) byReads.remove(entry);
  for (const entry of between) if (!gone.has(entry)) byReads.add(entry);
  for (const { is } of elsewhere) byReads.add(is);
  /** A list of before with what is otherwise now. */
  const renew = <M>(all: readonly M[], of: (entry: Entry<E, T>) => M): M[] => {
    const now = all.slice(0, start).concat(between.map(of), all.slice(all.length - end));
    for (const { place, is } of elsewhere)
      now[place < start ? place : place + list.length - past.length] = of(is);
    return now;
  };
  const isSame =
    between.length === replaced.length &&
    between.every(({ result }, place) => Object.is(result, replaced[place]?.result)) &&
    elsewhere.every(({ was, is }) => Object.is(was.result, is.result));
  const results = isSame ? before.results : renew(before.results, resultOf);
  return { list, entries: renew(past, (entry) => entry), results, byReads };
}

const resultOf = <T>({ result }: { readonly result: T }): T => result;

/** So many members are looked for one by one; more are found by walking once over all. */
const FEW = 16;

/** Where some of the entries stand. */
function placesOf<E, T>(some: ReadonlySet<Entry<E, T>>, entries: readonly Entry<E, T>[]): number[] {
  if (some.size <= FEW) return [...some].map((entry) => entries.indexOf(entry)).filter((place) => place >= 0);
  return [...entries.keys()].filter((place) => some.has(entries[place] as Entry<E, T>));
}
