import { forEachLeafOf, MapView } from './map-view.ts';
import { noteRead } from './recording.ts';
import { type Source, type Version, WHOLE } from './version.ts';

/** A map as it is held, read as a whole where it is one of a version. */
export function wholeOf<V>(map: ReadonlyMap<string, V>): ReadonlyMap<string, V> {
  return map instanceof TrackedMap ? map.whole : map;
}

/** A map of a version that notes who reads what in it: single entries by their key, or all of it. */
export class TrackedMap<V> extends MapView<string, V> {
  private readonly version: Version;
  private readonly source: Source;
  private readonly held: ReadonlyMap<string, V>;

  /** @param held as the version was given it under that source */
  constructor(version: Version, source: Source, held: ReadonlyMap<string, V>) {
    super();
    this.version = version;
    this.source = source;
    this.held = held;
  }

  override get(key: string): V | undefined {
    const value = this.held.get(key);
    noteRead(this.version, this.source, key, value);
    return value;
  }

  override get size(): number {
    return this.whole.size;
  }

  override entries(): MapIterator<[string, V]> {
    return this.whole.entries();
  }

  /** Without going through the entries, since all parts of a machine are walked through at every edit. */
  override values(): MapIterator<V> {
    return this.whole.values();
  }

  override keys(): MapIterator<string> {
    return this.whole.keys();
  }

  override forEach(act: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    this.whole.forEach((value, key) => {
      act(value, key, this);
    });
  }

  override forEachLeaf(act: (leaf: ReadonlyMap<string, V>) => void): void {
    forEachLeafOf(this.whole, act);
  }

  /** The map itself, for whoever rests on all of it; the same one while it is the same. */
  get whole(): ReadonlyMap<string, V> {
    noteRead(this.version, this.source, WHOLE, this.held);
    return this.held;
  }
}
