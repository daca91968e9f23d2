/** Several maps seen as one, so that those that stay the same need not be copied. A key stands in the last that has it. */
export class JoinedMap<V> implements ReadonlyMap<string, V> {
  readonly maps: ReadonlyMap<string, V>[] = [];

  add(map: ReadonlyMap<string, V>): void {
    this.maps.push(map);
  }

  get(key: string): V | undefined {
    // The last maps are the largest, and most is asked of them.
    for (let place = this.maps.length - 1; place >= 0; place--) {
      const value = this.maps[place]?.get(key);
      if (value !== undefined) return value;
    }
    return undefined;
  }

  has(key: string): boolean {
    return this.maps.some((map) => map.has(key));
  }

  get size(): number {
    return this.maps.reduce((sum, { size }) => sum + size, 0);
  }

  *entries(): MapIterator<[string, V]> {
    for (const map of this.maps) yield* map;
  }

  *keys(): MapIterator<string> {
    for (const map of this.maps) yield* map.keys();
  }

  *values(): MapIterator<V> {
    for (const map of this.maps) yield* map.values();
  }

  [Symbol.iterator](): MapIterator<[string, V]> {
    return this.entries();
  }

  forEach(act: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [key, value] of this) act(value, key, this);
  }
}
