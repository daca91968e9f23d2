import { countSameEnds } from '../same-ends.ts';
import type { Host } from './fact.ts';
import { type Entry, MembersByReads } from './members.ts';
import { placesOf } from './places-of.ts';
import { noteRead, type ReadList, recordList, unrecorded } from './recording.ts';
import { saysTheSame } from './same.ts';
import type { Evaluated, Version } from './version.ts';

/** All members with their results, in the order of the list. It belongs to the newest version and changes with it. */
interface Judged<E, T> {
  list: readonly E[];
  entries: Entry<E, T>[];
  /** Another list wherever a result is another: who read it keeps what was read. */
  results: readonly T[];
  readonly byReads: MembersByReads<E, T>;
}

/** What was found of a member, which is not entered yet. */
interface Found<T> {
  readonly result: T;
  readonly reads: ReadList | undefined;
}

/** Judges a member; `past` is what was found of it before. */
type Judge<E, T> = (member: E, past?: Entry<E, T>) => Found<T>;

/**
 * Makes a fact about each member of a list, such as each link. An edit works out anew the members that it made and those
 * that rest on what it changed; an index tells which these are, so the work grows with the edit and not with the list.
 * @param listOf the list; its members stay the same objects while nothing about them changes
 * @param settle the result of before, of the same member or of the one that stood in its place, where the new one says the same
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
      return { result: past ? settle(past.result, result) : result, reads };
    };
    if (before && stale) judgeAgain(before, stale, list, judge);
    const judged = before ?? judgeAll(list, judge, version.isFollowed);
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
  const byReads = new MembersByReads<E, T>();
  const found = list.map((member) => judge(member));
  const entries = list.map((member, place) => toEntry(member, found[place] as Found<T>));
  if (isFollowed) for (const [place, entry] of entries.entries()) byReads.enter(entry, found[place]?.reads);
  return { list, entries, results: entries.map(resultOf), byReads };
}

const toEntry = <E, T>(member: E, { result }: Found<T>): Entry<E, T> => ({ member, result, readings: [] });

/** What stands at a place now, and what was found of it if it was judged. */
interface Placed<E, T> {
  readonly place: number;
  readonly entry: Entry<E, T>;
  readonly found?: Found<T>;
}

/**
 * Judges what is new or stale: what an edit changed stands together, so members are paired from both ends. Nothing is
 * changed before all is judged, so that whatever fails meanwhile leaves what was known as it was.
 */
function judgeAgain<E, T>(
  judged: Judged<E, T>,
  stale: ReadonlySet<Entry<E, T>>,
  list: readonly E[],
  judge: Judge<E, T>,
): void {
  const { entries, byReads } = judged;
  const isAligned = list.length === entries.length;
  const [start, end] = countSameEnds(judged.list, list);
  const to = entries.length - end;
  if (isAligned && start === to && stale.size === 0) {
    judged.list = list;
    return;
  }
  const replaced = entries.slice(start, to);
  const known = new Map(replaced.map((entry) => [entry.member, entry]));
  const between = list.slice(start, list.length - end).map((member, at): Placed<E, T> => {
    const place = start + at;
    const entry = known.get(member);
    known.delete(member); // what stands in the list twice has an entry for each of its places
    if (entry) return { place, entry, ...(stale.has(entry) && { found: judge(member, entry) }) };
    // What stands in the place of another often says the same, and then nothing follows from it.
    const found = judge(member, isAligned ? replaced[at] : undefined);
    return { place, entry: toEntry(member, found), found };
  });
  const elsewhere: Placed<E, T>[] = [];
  for (const place of placesOf(stale, entries)) {
    const entry = entries[place] as Entry<E, T>;
    if (place < start || place >= to) elsewhere.push({ place, entry, found: judge(entry.member, entry) });
  }
  const stays = new Set(between.map(({ entry }) => entry));
  for (const entry of replaced) if (!stays.has(entry)) byReads.remove(entry);
  for (const { entry, found } of [...between, ...elsewhere]) {
    if (!found) continue;
    entry.result = found.result;
    byReads.enter(entry, found.reads);
  }
  judged.list = list;
  if (isAligned) put(judged, [...between, ...elsewhere]);
  else {
    judged.entries = entries.slice(0, start).concat(between.map(entryOf), entries.slice(to));
    judged.results = judged.entries.map(resultOf);
  }
}

/** Puts entries in their places; the list of results stays the same one while every result does. */
function put<E, T>(judged: Judged<E, T>, some: readonly Placed<E, T>[]): void {
  for (const { place, entry } of some) judged.entries[place] = entry;
  const others = some.filter(({ place, entry }) => !Object.is(entry.result, judged.results[place]));
  if (others.length === 0) return;
  const results = judged.results.slice();
  for (const { place, entry } of others) results[place] = entry.result;
  judged.results = results;
}

const entryOf = <E, T>({ entry }: Placed<E, T>): Entry<E, T> => entry;
const resultOf = <T>({ result }: { readonly result: T }): T => result;
