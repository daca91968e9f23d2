import { MapView } from './map-view.ts';

/** A patch is laid over its map until it is this share of it; then both become a map of their own. */
const LARGEST = 1 / 8;

/** A map with other values under a few of its keys, so that a large one need not be copied for a small change. */
export class PatchedMap<K, V> extends MapView<K, V> {
  readonly base: ReadonlyMap<K, V>;
  readonly patch: ReadonlyMap<K, V>;

  private constructor(base: ReadonlyMap<K, V>, patch: ReadonlyMap<K, V>) {
    super();
    this.base = base;
    this.patch = patch;
  }

  /** @param changed other values for some of the keys of the map; no new keys */
  static over<K, V>(map: ReadonlyMap<K, V>, changed: ReadonlyMap<K, V>): ReadonlyMap<K, V> {
    const patched =
      map instanceof PatchedMap
        ? new PatchedMap<K, V>(map.base, new Map([...map.patch, ...changed]))
        : new PatchedMap<K, V>(map, changed);
    return patched.patch.size > patched.base.size * LARGEST ? new Map(patched) : patched;
  }

  override get(key: K): V | undefined {
    return this.patch.get(key) ?? this.base.get(key);
  }

  override get size(): number {
    return this.base.size;
  }

  override *entries(): MapIterator<[K, V]> {
    for (const [key, value] of this.base) yield [key, this.patch.get(key) ?? value];
  }

  override forEach(act: (value: V, key: K, map: ReadonlyMap<K, V>) => void): void {
    this.base.forEach((value, key) => {
      act(this.patch.get(key) ?? value, key, this);
    });
  }
}
