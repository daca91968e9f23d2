import { isSameList } from '../same-list.ts';
import type { Collector } from './collect.ts';
import type { Derived, Missing } from './derived.ts';

/** What was worked out, and everything that it was read from. */
export interface Kept<T = void> {
  readonly read: readonly unknown[];
  readonly derived: readonly Derived[];
  readonly missing: readonly Missing[];
  readonly result: T;
}

/** Where results are kept from one version of a text to the next: a map, or a weak one by something that lives as long. */
interface Store<K, V> {
  readonly get: (key: K) => V | undefined;
  readonly set: (key: K, value: V) => unknown;
}

/**
 * Works values out, or takes them over from the version before while everything that they were read from is the same.
 * @param read what they are read from: figures, words, and objects that stay the same while their text does
 * @param work adds the values to the collector
 */
export function keepUnder<K, T>(
  store: Store<K, Kept<T>>,
  key: K,
  read: readonly unknown[],
  out: Collector,
  work: () => T,
): T {
  const known = store.get(key);
  if (known && isSameList(known.read, read)) {
    out.keep(known.derived, known.missing);
    return known.result;
  }
  const [derivedFrom, missingFrom] = [out.derived.length, out.missing.length];
  const result = work();
  store.set(key, {
    read,
    derived: out.derived.slice(derivedFrom),
    missing: out.missing.slice(missingFrom),
    result,
  });
  return result;
}
