import { isSameList } from '../same-list.ts';
import { fact, type Host } from './fact.ts';
import { noteRead, unrecorded } from './recording.ts';
import { type Evaluated, type Version, WHOLE } from './version.ts';

/** A map that was worked out, and what became of the one before. */
interface Compared<K, V> {
  readonly map: ReadonlyMap<K, V>;
  /** The keys under which there is something else than before. */
  readonly changed: ReadonlySet<unknown>;
  /** The number of the version in which it was worked out. */
  readonly number: number;
}

/** A fact that is a map, of which single entries are read. */
export interface FactMap<H, K, V> {
  readonly get: (host: H, key: K) => V | undefined;
  readonly all: (host: H) => ReadonlyMap<K, V>;
}

/**
 * Makes a fact that is a map: it is worked out as a whole, but who reads one entry rests on that entry alone.
 * @param isSame whether an entry says the same as before; it stays the same object then
 */
export function factMap<H extends Host, K, V>(
  kind: string,
  work: (host: H) => ReadonlyMap<K, V>,
  isSame: (before: V, now: V) => boolean = Object.is,
): FactMap<H, K, V> {
  const compared = fact<H, Compared<K, V>>(
    kind,
    (host) => ({ map: work(host), changed: NOTHING, number: host.version.number }),
    (before, now) => compare(before, now, isSame),
  );
  const comparedIn = (version: Version) => unrecorded(() => compared(version.hosts.get(kind) as H));
  const self: Evaluated = {
    evaluate: (version, key) => {
      const { map } = comparedIn(version);
      return key === WHOLE ? map : map.get(key as K);
    },
    changedKeys: (version) => {
      const { changed, number } = comparedIn(version);
      return number === version.number ? changed : NOTHING;
    },
  };
  const read = (host: H, key: unknown): unknown => {
    const value = self.evaluate(host.version, key);
    noteRead(host.version, self, key, value);
    return value;
  };
  return {
    get: (host, key) => read(host, key) as V | undefined,
    all: (host) => read(host, WHOLE) as ReadonlyMap<K, V>,
  };
}

const NOTHING: ReadonlySet<unknown> = new Set();

function compare<K, V>(
  before: Compared<K, V>,
  now: Compared<K, V>,
  isSame: (before: V, now: V) => boolean,
): Compared<K, V> {
  const changed = new Set<unknown>();
  let settled: Map<K, V> | undefined;
  let added = 0;
  for (const [key, value] of now.map) {
    const known = before.map.get(key);
    if (known === undefined) added++;
    if (Object.is(known, value)) continue;
    if (known === undefined || !isSame(known, value)) changed.add(key);
    else {
      // The map may belong to somebody else, so it is copied before an entry of before is put into it.
      settled ??= new Map(now.map);
      settled.set(key, known);
    }
  }
  if (now.map.size - added < before.map.size)
    for (const key of before.map.keys()) if (!now.map.has(key)) changed.add(key);
  const map = settled ?? now.map;
  if (changed.size === 0 && isSameList([...before.map.keys()], [...map.keys()])) return before;
  return { map, changed: changed.add(WHOLE), number: now.number };
}
