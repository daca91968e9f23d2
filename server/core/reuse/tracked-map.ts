import { noteRead } from './recording.ts';
import { type Source, type Version, WHOLE } from './version.ts';

/** A map of a version that notes who reads what in it: single entries by their key, or all of it. */
export class TrackedMap<V> implements ReadonlyMap<string, V> {
  private readonly version: Version;
  private readonly source: Source;
  private readonly held: ReadonlyMap<string, V>;

  /** @param held as the version was given it under that source */
  constructor(version: Version, source: Source, held: ReadonlyMap<string, V>) {
    this.version = version;
    this.source = source;
    this.held = held;
  }

  get(key: string): V | undefined {
    const value = this.held.get(key);
    noteRead(this.version, this.source, key, value);
    return value;
  }

  has(key: string): boolean {
    return this.get(key) !== undefined;
  }

  get size(): number {
    return this.whole.size;
  }

  keys(): MapIterator<string> {
    return this.whole.keys();
  }

  values(): MapIterator<V> {
    return this.whole.values();
  }

  entries(): MapIterator<[string, V]> {
    return this.whole.entries();
  }

  [Symbol.iterator](): MapIterator<[string, V]> {
    return this.whole.entries();
  }

  forEach(act: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [key, value] of this.whole) act(value, key, this);
  }

  private get whole(): ReadonlyMap<string, V> {
    noteRead(this.version, this.source, WHOLE, this.held);
    return this.held;
  }
}
