import { countSameEnds } from '../same-ends.ts';
import type { Host } from './fact.ts';
import { type Entry, MembersByReads } from './members.ts';
import { placesOf } from './places-of.ts';
import { noteRead, recordList, unrecorded } from './recording.ts';
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

/** Judges a member; `past` is what was found of it before. */
type Judge<E, T> = (member: E, past?: Entry<E, T>) => Entry<E, T>;

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
      return { member, result: past ? settle(past.result, result) : result, reads };
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
  const entries = list.map((member) => judge(member));
  const byReads = new MembersByReads<E, T>();
  if (isFollowed) for (const entry of entries) byReads.add(entry);
  return { list, entries, results: entries.map(resultOf), byReads };
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
  const [start, end] = countSameEnds(judged.list, list);
  const to = entries.length - end;
  const replaced = entries.slice(start, to);
  const known = new Map(replaced.map((entry) => [entry.member, entry]));
  const isAligned = list.length === entries.length;
  const between = list.slice(start, list.length - end).map((member, at) => {
    const entry = known.get(member);
    known.delete(member); // what stands in the list twice has an entry for each of its places
    // What stands in the place of another often says the same, and then nothing follows from it.
    return entry && !stale.has(entry)
      ? entry
      : judge(member, entry ?? (isAligned ? replaced[at] : undefined));
  });
  const elsewhere = placesOf(stale, entries)
    .filter((place) => place < start || place >= to)
    .map((place) => {
      const was = entries[place] as Entry<E, T>;
      return { place, is: judge(was.member, was) };
    });
  const [gone, kept] = [new Set(replaced), new Set(between)];
  for (const entry of stale) byReads.remove(entry);
  for (const entry of replaced) if (!kept.has(entry)) byReads.remove(entry);
  for (const entry of between) if (!gone.has(entry)) byReads.add(entry);
  for (const { is } of elsewhere) byReads.add(is);
  judged.list = list;
  if (isAligned) {
    put(judged, elsewhere);
    put(
      judged,
      between.map((is, at) => ({ place: start + at, is })),
    );
  } else {
    for (const { place, is } of elsewhere) entries[place] = is;
    judged.entries = entries.slice(0, start).concat(between, entries.slice(to));
    judged.results = judged.entries.map(resultOf);
  }
}

/** Puts entries in the place of others; the list of results stays the same one while every result does. */
function put<E, T>(
  judged: Judged<E, T>,
  some: readonly { readonly place: number; readonly is: Entry<E, T> }[],
): void {
  const others = some.filter(({ place, is }) => !Object.is(is.result, judged.results[place]));
  for (const { place, is } of some) judged.entries[place] = is;
  if (others.length === 0) return;
  const results = judged.results.slice();
  for (const { place, is } of others) results[place] = is.result;
  judged.results = results;
}

const resultOf = <T>({ result }: { readonly result: T }): T => result;
