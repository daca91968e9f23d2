import { forEachLeafOf, MapView } from './map-view.ts';

/** Several maps seen as one, so that those that stay the same need not be copied. A key stands in the last that has it. */
export class JoinedMap<V> extends MapView<string, V> {
  readonly maps: ReadonlyMap<string, V>[] = [];

  add(map: ReadonlyMap<string, V>): void {
    this.maps.push(map);
  }

  override get(key: string): V | undefined {
    // The last maps are the largest, and most is asked of them.
    for (let place = this.maps.length - 1; place >= 0; place--) {
      const value = this.maps[place]?.get(key);
      if (value !== undefined) return value;
    }
    return undefined;
  }

  override get size(): number {
    return this.maps.reduce((sum, { size }) => sum + size, 0);
  }

  override *entries(): MapIterator<[string, V]> {
    for (const map of this.maps) yield* map;
  }

  override forEach(act: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const map of this.maps) {
      map.forEach((value, key) => {
        act(value, key, this);
      });
    }
  }

  override forEachLeaf(act: (leaf: ReadonlyMap<string, V>) => void): void {
    for (const map of this.maps) forEachLeafOf(map, act);
  }
}
