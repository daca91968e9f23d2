import { noteRead, record, unrecorded } from './recording.ts';
import { saysTheSame } from './same.ts';
import type { Evaluated, Reads, Version } from './version.ts';

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
 * @param settle the result of before where the new one says the same, so that what rests on it stays too
 */
export function fact<H extends Host, T>(
  kind: string,
  work: (host: H) => T,
  settle: (before: T, now: T) => T = keepIfSame,
): (host: H) => T {
  const keyed = factBy<H, undefined, T>(kind, work, settle);
  return (host) => keyed(host, undefined);
}

/** Makes a fact for each key, such as the circuits of one kind. */
export function factBy<H extends Host, K, T>(
  kind: string,
  work: (host: H, key: K) => T,
  settle: (before: T, now: T) => T = keepIfSame,
): (host: H, key: K) => T {
  const evaluate = (version: Version, key: K): T => {
    const known = version.memoOf(self, key);
    if (known) return known.result as T;
    const before = version.inheritedMemoOf(self, key);
    if (before?.reads && stillHolds(before.reads, version)) {
      version.keep(self, key, before);
      return before.result as T;
    }
    const host = version.hosts.get(kind) as H;
    const { result, reads } = record(version, () => work(host, key));
    const kept = before ? settle(before.result as T, result) : result;
    version.keep(self, key, { result: kept, reads });
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

/** Whether everything that was read in another version is the same in this one. */
export function stillHolds(reads: Reads, version: Version): boolean {
  return unrecorded(() => {
    for (const [source, byKey] of reads) {
      for (const [key, value] of byKey) if (!Object.is(version.now(source, key), value)) return false;
    }
    return true;
  });
}
