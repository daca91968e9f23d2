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
  if (before === now) return changed;
  const known = before instanceof PiecedMap && now instanceof PiecedMap ? now.keysBeside(before) : undefined;
  if (known) for (const key of known) add(key);
  else {
    now.forEach((_, key) => {
      add(key);
    });
    before.forEach((_, key) => {
      if (!now.has(key)) changed.add(key);
    });
  }
  return changed;
}
