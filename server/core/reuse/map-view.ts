/** What looks like a map that nobody changes. Whoever walks through all of a large one does so quickest by `forEach`. */
export abstract class MapView<K, V> implements ReadonlyMap<K, V> {
  abstract get(key: K): V | undefined;
  abstract get size(): number;
  abstract entries(): MapIterator<[K, V]>;
  abstract forEach(act: (value: V, key: K, map: ReadonlyMap<K, V>) => void): void;
  /** Goes through the plain maps of which it consists; each stays the same object while nothing in it changes. */
  abstract forEachLeaf(act: (leaf: ReadonlyMap<K, V>) => void): void;

  has(key: K): boolean {
    return this.get(key) !== undefined;
  }

  *keys(): MapIterator<K> {
    for (const [key] of this.entries()) yield key;
  }

  *values(): MapIterator<V> {
    for (const [, value] of this.entries()) yield value;
  }

  [Symbol.iterator](): MapIterator<[K, V]> {
    return this.entries();
  }
}

/** Goes through the plain maps of which a map consists: one that is no view is one itself. */
export function forEachLeafOf<K, V>(map: ReadonlyMap<K, V>, act: (leaf: ReadonlyMap<K, V>) => void): void {
  if (map instanceof MapView) map.forEachLeaf(act);
  else act(map);
}
