import { WHOLE } from './version.ts';

/** The keys under which two maps hold different objects; with them what stands for the whole of a map, where there is any. */
export function changedKeys(
  before: ReadonlyMap<unknown, unknown>,
  now: ReadonlyMap<unknown, unknown>,
): ReadonlySet<unknown> {
  const changed = new Set<unknown>([WHOLE]);
  for (const [key, value] of now) if (!Object.is(before.get(key), value)) changed.add(key);
  for (const key of before.keys()) if (!now.has(key)) changed.add(key);
  return changed;
}
