import { PiecedMap } from './pieced-map.ts';
import { WHOLE } from './version.ts';

/** The keys under which two maps hold different objects; with them what stands for the whole of a map, where there is any. */
export function changedKeys(
  before: ReadonlyMap<unknown, unknown>,
  now: ReadonlyMap<unknown, unknown>,
): ReadonlySet<unknown> {
  const changed = new Set<unknown>([WHOLE]);
  const add = (key: unknown) => {
    if (!Object.is(before.get(key), now.get(key))) changed.add(key);
  };
  const patches = patchesOf(before, now);
  if (patches) for (const patch of patches) for (const key of patch.keys()) add(key);
  else {
    for (const key of now.keys()) add(key);
    for (const key of before.keys()) if (!now.has(key)) changed.add(key);
  }
  return changed;
}

/** What is laid over one map to make the two, where they are made of one: they can only differ in that. */
function patchesOf(
  a: ReadonlyMap<unknown, unknown>,
  b: ReadonlyMap<unknown, unknown>,
): ReadonlyMap<unknown, unknown>[] | undefined {
  const baseOf = (map: ReadonlyMap<unknown, unknown>) => (map instanceof PiecedMap ? map.base : map);
  if (baseOf(a) !== baseOf(b)) return undefined;
  return [a, b].flatMap((map) => (map instanceof PiecedMap ? [map.patch] : []));
}
