import type { Memo } from './memos.ts';
import { noteRead, record, unrecorded } from './recording.ts';
import { saysTheSame } from './same.ts';
import type { Evaluated, Reads, Source, Version } from './version.ts';

/** Something that facts are worked out from: a machine, or an analysis. */
export interface Host {
  readonly version: Version;
}

/**
 * Makes a fact: a pure function of a version that is worked out once for each version, whoever asks, and taken over from
 * the version before while everything that it read there is the same in this one. What it read is noted by the host
 * itself, so nothing has to be declared and nothing can be forgotten. Two rules keep it right:
 * - the result is data: a function in it would go on reading from the version that it was made in;
 * - what it reads comes from the host, from other facts, or from objects that never change.
 *
 * @param kind which host of a version it is worked out from
 * @param work may take over from what it gave before whatever is still the same; that makes it quicker and never different
 * @param settle the result of before where the new one says the same, so that what rests on it stays too
 */
export function fact<H extends Host, T>(
  kind: string,
  work: (host: H, before: T | undefined) => T,
  settle: (before: T, now: T) => T = keepIfSame,
): (host: H) => T {
  const keyed = factBy<H, undefined, T>(kind, (host, _, before) => work(host, before), settle);
  return (host) => keyed(host, undefined);
}

/** Makes a fact for each key, such as the circuits of one kind. */
export function factBy<H extends Host, K, T>(
  kind: string,
  work: (host: H, key: K, before: T | undefined) => T,
  settle: (before: T, now: T) => T = keepIfSame,
): (host: H, key: K) => T {
  const evaluate = (version: Version, key: K): T => {
    const known = version.memoOf(self, key);
    if (known) return known.result as T;
    const before = version.inheritedMemoOf(self, key);
    if (before && stillHolds(before, version)) {
      version.keep(self, key, before);
      return before.result as T;
    }
    const host = version.hosts.get(kind) as H;
    const { result, reads } = record(version, () => work(host, key, before?.result as T | undefined));
    const kept = before ? settle(before.result as T, result) : result;
    version.keep(self, key, { result: kept, reads, heldIn: version.number });
    return kept;
  };
  const self: Evaluated = { evaluate: (version, key) => evaluate(version, key as K) };
  return ({ version }, key) => {
    const result = evaluate(version, key);
    noteRead(version, self, key, result);
    return result;
  };
}

/** Settles a fact by whether two results say the same. */
export function keepIf<T>(isSame: (before: T, now: T) => boolean): (before: T, now: T) => T {
  return (before, now) => (isSame(before, now) ? before : now);
}

const keepIfSame = keepIf<unknown>(saysTheSame) as <T>(before: T, now: T) => T;

/** Whether everything that a result rests on is the same in a version as when it was worked out. */
function stillHolds({ reads, heldIn }: Memo, version: Version): boolean {
  if (!reads) return false;
  return unrecorded(() => {
    // This is asked of everything that was ever worked out; a loop over places makes no objects.
    for (let at = 0; at < reads.length; at++) {
      const { source, byKey } = reads[at] as Reads[number];
      if (findChange(source, byKey, heldIn, version, itself, always)) return false;
    }
    return true;
  });
}

const itself = (read: unknown): unknown => read;
const always = (): boolean => true;

/**
 * Looks for keys among those that were read from a source under which there is something else now. What is known to have
 * changed since the version before is looked up among them, which is less than to look at all of them. (A loop and no
 * generator: this is asked of everything at every edit, and makes no objects.)
 * @param byKey what was read under each key
 * @param heldIn the number of the version in which all of that stood
 * @param readOf the value that was read
 * @param isEnough told of each such key, until it says so
 * @returns whether it was enough
 */
export function findChange<K, V>(
  source: Source | Evaluated,
  byKey: ReadonlyMap<K, V>,
  heldIn: number,
  version: Version,
  readOf: (read: V) => unknown,
  isEnough: (key: K, read: V) => boolean,
): boolean {
  const changed = version.comesAfter(heldIn) ? version.changedKeys(source) : undefined;
  if (changed?.size === 0) return false;
  if (changed && changed.size < byKey.size) {
    for (const key of changed as ReadonlySet<K>) {
      const read = byKey.get(key);
      if (read === undefined && !byKey.has(key)) continue;
      if (!Object.is(version.now(source, key), readOf(read as V)) && isEnough(key, read as V)) return true;
    }
    return false;
  }
  for (const key of byKey.keys()) {
    if (changed?.has(key) === false) continue;
    const read = byKey.get(key) as V;
    if (!Object.is(version.now(source, key), readOf(read)) && isEnough(key, read)) return true;
  }
  return false;
}
