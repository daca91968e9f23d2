import { isSameList } from '../same-list.ts';
import { fact, type Host, keepIf } from './fact.ts';
import { noteRead, unrecorded } from './recording.ts';
import { type Evaluated, type Version, WHOLE } from './version.ts';

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
  const mapOf = fact<H, ReadonlyMap<K, V>>(
    kind,
    (host, before) => {
      const now = work(host);
      return before
        ? unrecorded(() => settle(before, now, isSame, (changed) => host.version.noteChanged(self, changed)))
        : now;
    },
    keepIf(Object.is),
  );
  const mapIn = (version: Version) => unrecorded(() => mapOf(version.hosts.get(kind) as H));
  const self: Evaluated = {
    evaluate: (version, key) => {
      const map = mapIn(version);
      return key === WHOLE ? map : map.get(key as K);
    },
    changedKeys: (version) => {
      mapIn(version);
      return version.notedChanges(self) ?? NOTHING;
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

/** The map of before where it says the same, or else the new one with the entries of before that say the same. */
function settle<K, V>(
  before: ReadonlyMap<K, V>,
  now: ReadonlyMap<K, V>,
  isSame: (before: V, now: V) => boolean,
  onChange: (keys: ReadonlySet<unknown>) => void,
): ReadonlyMap<K, V> {
  const changed = new Set<unknown>();
  let settled: Map<K, V> | undefined;
  let added = 0;
  for (const [key, value] of now) {
    const known = before.get(key);
    if (known === undefined) added++;
    if (Object.is(known, value)) continue;
    if (known === undefined || !isSame(known, value)) changed.add(key);
    else {
      // The map may belong to somebody else, so it is copied before an entry of before is put into it.
      settled ??= new Map(now);
      settled.set(key, known);
    }
  }
  if (now.size - added < before.size) for (const key of before.keys()) if (!now.has(key)) changed.add(key);
  const map = settled ?? now;
  if (changed.size === 0 && isSameList([...before.keys()], [...map.keys()])) return before;
  onChange(changed.add(WHOLE));
  return map;
}
