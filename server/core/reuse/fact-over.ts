import { changesAmong, type Host } from './fact.ts';
import { noteRead, record, unrecorded } from './recording.ts';
import { saysTheSame } from './same.ts';
import type { Evaluated, Reads, Source, Version } from './version.ts';

/** A member of a list, with what was worked out of it. */
interface Entry<E, T> {
  readonly member: E;
  readonly result: T;
  /** Undefined where it rests on something that is never the same again. */
  readonly reads: Reads | undefined;
}

/** What was read under a key, and for which members. */
interface Reading<E, T> {
  readonly value: unknown;
  readonly by: Set<Entry<E, T>>;
}

/** All members with their results, and an index from what was read to those that rest on it. */
interface Judged<E, T> {
  readonly entries: readonly Entry<E, T>[];
  readonly results: readonly T[];
  readonly index: Map<Source | Evaluated, Map<unknown, Reading<E, T>>>;
  /** The entries that hold for one version alone. */
  readonly fleeting: Set<Entry<E, T>>;
}

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
    const stale = before && unrecorded(() => findStale(before, memo?.heldIn ?? 0, version));
    const judge = (member: E, past?: Entry<E, T>): Entry<E, T> => {
      const { result, reads } = record(version, () => work(host, member));
      return { member, result: past ? settle(past.result, result) : result, reads };
    };
    const judged = before && stale ? rejudge(before, stale, list, judge) : judgeAll(list, judge);
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

/** The entries that rest on something that is another now. */
function findStale<E, T>(
  { index, fleeting }: Judged<E, T>,
  heldIn: number,
  version: Version,
): Set<Entry<E, T>> {
  const stale = new Set(fleeting);
  for (const [source, byKey] of index) {
    for (const key of changesAmong(source, byKey, heldIn, version, ({ value }) => value)) {
      for (const entry of byKey.get(key)?.by ?? []) stale.add(entry);
    }
  }
  return stale;
}

function judgeAll<E, T>(list: readonly E[], judge: (member: E) => Entry<E, T>): Judged<E, T> {
  const entries = list.map((member) => judge(member));
  const judged: Judged<E, T> = {
    entries,
    results: entries.map(({ result }) => result),
    index: new Map(),
    fleeting: new Set(),
  };
  for (const entry of entries) addToIndex(judged, entry);
  return judged;
}

/** Judges what is new or stale: what an edit changed stands together, so members are paired from both ends. */
function rejudge<E, T>(
  before: Judged<E, T>,
  stale: ReadonlySet<Entry<E, T>>,
  list: readonly E[],
  judge: (member: E, past?: Entry<E, T>) => Entry<E, T>,
): Judged<E, T> {
  const past = before.entries;
  const count = list.length;
  let start = 0;
  while (start < count && start < past.length && list[start] === past[start]?.member) start++;
  const most = Math.min(count, past.length) - start;
  let end = 0;
  while (end < most && list[count - 1 - end] === past[past.length - 1 - end]?.member) end++;
  const gone = new Set(past.slice(start, past.length - end));
  const byMember = new Map([...gone].map((entry) => [entry.member, entry]));
  if (gone.size === 0 && stale.size === 0 && count === past.length) return before;
  const fresh: Entry<E, T>[] = [];
  const take = (entry: Entry<E, T>): Entry<E, T> => {
    if (!stale.has(entry)) return entry;
    const next = judge(entry.member, entry);
    gone.add(entry);
    fresh.push(next);
    return next;
  };
  const between = list.slice(start, count - end).map((member): Entry<E, T> => {
    const known = byMember.get(member);
    if (known && !stale.has(known)) {
      gone.delete(known);
      return known;
    }
    const next = judge(member, known);
    fresh.push(next);
    return next;
  });
  const isInPlace =
    stale.size === 0 || (stale.size === gone.size && [...stale].every((each) => gone.has(each)));
  const entries = [
    ...takeAll(past, 0, start, take, isInPlace),
    ...between,
    ...takeAll(past, past.length - end, past.length, take, isInPlace),
  ];
  for (const entry of gone) removeFromIndex(before, entry);
  for (const entry of fresh) addToIndex(before, entry);
  const isSame =
    entries.length === past.length &&
    entries.every(({ result }, place) => Object.is(result, past[place]?.result));
  return {
    entries,
    results: isSame ? before.results : entries.map(({ result }) => result),
    index: before.index,
    fleeting: before.fleeting,
  };
}

function takeAll<E, T>(
  past: readonly Entry<E, T>[],
  from: number,
  to: number,
  take: (entry: Entry<E, T>) => Entry<E, T>,
  areAllKept: boolean,
): readonly Entry<E, T>[] {
  const some = past.slice(from, to);
  return areAllKept ? some : some.map(take);
}

function addToIndex<E, T>({ index, fleeting }: Judged<E, T>, entry: Entry<E, T>): void {
  if (!entry.reads) {
    fleeting.add(entry);
    return;
  }
  for (const [source, read] of entry.reads) {
    let byKey = index.get(source);
    if (!byKey) {
      byKey = new Map();
      index.set(source, byKey);
    }
    for (const [key, value] of read) {
      const reading = byKey.get(key);
      if (reading && Object.is(reading.value, value)) reading.by.add(entry);
      else byKey.set(key, { value, by: new Set([...(reading?.by ?? []), entry]) });
    }
  }
}

function removeFromIndex<E, T>({ index, fleeting }: Judged<E, T>, entry: Entry<E, T>): void {
  fleeting.delete(entry);
  for (const [source, read] of entry.reads ?? []) {
    const byKey = index.get(source);
    for (const key of read.keys()) {
      const reading = byKey?.get(key);
      reading?.by.delete(entry);
      if (reading?.by.size === 0) byKey?.delete(key);
    }
    if (byKey?.size === 0) index.delete(source);
  }
}
