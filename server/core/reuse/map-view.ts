/** What looks like a map that nobody changes, of which only these three are its own. */
export abstract class MapView<K, V> implements ReadonlyMap<K, V> {
  abstract get(key: K): V | undefined;
  abstract get size(): number;
  abstract entries(): MapIterator<[K, V]>;

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

  forEach(act: (value: V, key: K, map: ReadonlyMap<K, V>) => void): void {
    for (const [key, value] of this.entries()) act(value, key, this);
  }
}
