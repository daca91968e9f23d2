import { isSameList } from '../same-list.ts';
import { compareLists } from './difference.ts';
import type { Host } from './fact.ts';
import { placesOf } from './places-of.ts';
import { noteRead, unrecorded } from './recording.ts';
import type { Evaluated, Version } from './version.ts';

/** A fact that answers questions about single keys. */
export interface FactIndex<H, K, V> {
  readonly get: (host: H, key: K) => V | undefined;
}

/** Which members of a list stand under which key. It belongs to the newest version and changes with it. */
interface Index<K, E, V> {
  list: readonly E[];
  readonly entries: Map<K, Entry<E, V>>;
}

/** What stands under one key. */
interface Entry<E, V> {
  /** In the order of the list. */
  readonly members: readonly E[];
  readonly value: V;
}

/**
 * Makes a fact of what stands under the same key in a list, such as the ends of circuits by their net. An edit works out
 * anew only the keys of the members that it took out or put in, and who reads a key rests on that key alone.
 * @param listOf the list; its members stay the same objects while nothing about them changes, and none stands there twice
 * @param keysOf all keys of a member, which depend on it alone
 * @param make what is told of the members of a key, in the order of the list
 * @param isSame whether that says the same as before; it stays the same object then
 */
export function factIndex<H extends Host, E, K, V>(
  kind: string,
  listOf: (host: H) => readonly E[],
  keysOf: (member: E) => Iterable<K>,
  make: (members: readonly E[], key: K) => V,
  isSame: (before: V, now: V) => boolean,
): FactIndex<H, K, V> {
  const tell = (key: K, members: readonly E[], past: Entry<E, V> | undefined): Entry<E, V> => {
    const value = make(members, key);
    return { members, value: past && isSame(past.value, value) ? past.value : value };
  };
  const evaluate = (version: Version): Index<K, E, V> => {
    const known = version.memoOf(self, undefined);
    if (known) return known.result as Index<K, E, V>;
    const list = unrecorded(() => listOf(version.hosts.get(kind) as H));
    const inherited = version.inheritedMemoOf(self, undefined)?.result as Index<K, E, V> | undefined;
    const index = inherited ?? { list: [], entries: new Map<K, Entry<E, V>>() };
    const changed = renew(index, list, keysOf, tell);
    if (inherited) version.noteChanged(self, changed);
    version.keep(self, undefined, { result: index, reads: undefined, heldIn: version.number });
    return index;
  };
  const self: Evaluated = {
    evaluate: (version, key) => evaluate(version).entries.get(key as K)?.value,
    changedKeys: (version) => {
      evaluate(version);
      return version.notedChanges(self);
    },
  };
  return {
    get: ({ version }, key) => {
      const value = evaluate(version).entries.get(key)?.value;
      noteRead(version, self, key, value);
      return value;
    },
  };
}

/** An index of which single keys are read as lists. */
export function factGroups<H extends Host, E, K>(
  kind: string,
  listOf: (host: H) => readonly E[],
  keysOf: (member: E) => Iterable<K>,
): FactIndex<H, K, readonly E[]> {
  return factIndex(kind, listOf, keysOf, (members) => members, isSameList);
}

/** An index of which only is asked whether anything stands under a key. */
export function factKeys<H extends Host, E, K>(
  kind: string,
  listOf: (host: H) => readonly E[],
  keysOf: (member: E) => Iterable<K>,
): FactIndex<H, K, true> {
  return factIndex(
    kind,
    listOf,
    keysOf,
    () => true,
    () => true,
  );
}

const NOTHING: ReadonlySet<never> = new Set();

/**
 * Brings an index up to date with another list.
 * @returns the keys under which something else is told now
 */
function renew<K, E, V>(
  index: Index<K, E, V>,
  list: readonly E[],
  keysOf: (member: E) => Iterable<K>,
  tell: (key: K, members: readonly E[], past: Entry<E, V> | undefined) => Entry<E, V>,
): ReadonlySet<K> {
  if (index.list === list) return NOTHING;
  const { entries } = index;
  const { gone, come } = compareLists(index.list, list);
  index.list = list;
  const touched = new Set<K>();
  for (const member of gone) for (const key of keysOf(member)) touched.add(key);
  for (const member of come) for (const key of keysOf(member)) touched.add(key);
  if (touched.size === 0) return NOTHING;
  const changed = new Set<K>();
  const members = new Set(come);
  for (const key of touched)
    for (const member of entries.get(key)?.members ?? []) if (!gone.has(member)) members.add(member);
  const groups = new Map<K, E[]>();
  for (const place of placesOf(members, list)) {
    const member = list[place] as E;
    for (const key of keysOf(member)) {
      if (!touched.has(key)) continue;
      const group = groups.get(key);
      if (!group) groups.set(key, [member]);
      else if (group.at(-1) !== member) group.push(member);
    }
  }
  for (const key of touched) {
    const past = entries.get(key);
    const group = groups.get(key);
    const entry = group && tell(key, group, past);
    if (entry) entries.set(key, entry);
    else entries.delete(key);
    if (!past || !entry || entry.value !== past.value) changed.add(key);
  }
  return changed;
}
