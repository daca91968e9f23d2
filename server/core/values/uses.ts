import { keptBy } from '../reuse/kept-by.ts';
import { forEachLeafOf } from '../reuse/map-view.ts';
import type { Span } from '../syntax/node.ts';
import type { Derived, Values } from './derived.ts';

/** What a value uses: another one, by its address, or a figure that was written down, by its place. */
type Used = string | Span;

/**
 * The values that use others or figures directly, by these, in the order of all. Each small map of values is turned round
 * once, so that after an edit only those are that it made.
 */
export function usersOf<U extends Used>(
  { byAddress }: Values,
  used: readonly U[],
): ReadonlyMap<U, readonly Derived[]> {
  const users = new Map(used.map((each) => [each, [] as Derived[]]));
  if (used.length === 0) return users;
  forEachLeafOf(byAddress, (leaf) => {
    if (leaf.size === 0) return;
    const inLeaf = usersIn(leaf);
    for (const each of used) {
      const found = inLeaf.get(each);
      if (found) users.get(each)?.push(...found);
    }
  });
  return users;
}

const usersIn = keptBy((leaf: ReadonlyMap<string, Derived>): ReadonlyMap<Used, ReadonlySet<Derived>> => {
  const users = new Map<Used, Set<Derived>>();
  const add = (used: Used | undefined, value: Derived): void => {
    if (used === undefined) return;
    const known = users.get(used);
    if (known) known.add(value);
    else users.set(used, new Set([value]));
  };
  for (const value of leaf.values()) {
    for (const { address, at } of value.inputs) {
      add(address, value);
      add(at, value);
    }
  }
  return users;
});
