import { countSameEnds } from '../same-ends.ts';
import { MapView } from './map-view.ts';

/** A patch is laid over its map until it is this share of it; then both become a map of their own. */
const LARGEST = 1 / 8;

/**
 * Many small maps seen as one, in their order; no two of them have a key in common. Where a few of them are exchanged, their
 * keys are laid over the map that was made of all, so that a large one need not be made again for a small change.
 */
export class PiecedMap<K, V> extends MapView<K, V> {
  private readonly pieces: readonly ReadonlyMap<K, V>[];
  /** What was made of all pieces of this map or of an earlier one. */
  readonly base: ReadonlyMap<K, V>;
  /** What is otherwise now; undefined where there is nothing any more. */
  readonly patch: ReadonlyMap<K, V | undefined>;

  private constructor(
    pieces: readonly ReadonlyMap<K, V>[],
    base: ReadonlyMap<K, V>,
    patch: ReadonlyMap<K, V | undefined>,
  ) {
    super();
    this.pieces = pieces;
    this.base = base;
    this.patch = patch;
  }

  /**
   * @param before the pieces of an earlier version; the same map where they are the same
   * @returns of pieces with keys in common a plain map, in which the last one counts
   */
  static over<K, V>(pieces: readonly ReadonlyMap<K, V>[], before?: ReadonlyMap<K, V>): ReadonlyMap<K, V> {
    const exchanged = before instanceof PiecedMap ? (before as PiecedMap<K, V>).exchange(pieces) : undefined;
    if (exchanged) return exchanged;
    const base = new Map<K, V>();
    let count = 0;
    for (const piece of pieces) {
      count += piece.size;
      for (const [key, value] of piece) base.set(key, value);
    }
    return base.size === count ? new PiecedMap(pieces, base, new Map<K, V | undefined>()) : base;
  }

  /** Undefined where the map should be made anew. */
  private exchange(pieces: readonly ReadonlyMap<K, V>[]): PiecedMap<K, V> | undefined {
    const [start, end] = countSameEnds(this.pieces, pieces, Object.is);
    const [past, present] = [this.pieces, pieces].map((all) => all.slice(start, all.length - end));
    if (!past || !present || past.length + present.length === 0) return this;
    const [gone, added] = [new Set(past), new Set(present)];
    const patch = new Map(this.patch);
    for (const piece of gone)
      if (!added.has(piece)) for (const key of piece.keys()) patch.set(key, undefined);
    const now = new PiecedMap(pieces, this.base, patch);
    for (const piece of added) {
      if (gone.has(piece)) continue;
      for (const [key, value] of piece) {
        if (now.has(key)) return undefined;
        patch.set(key, value);
      }
    }
    return patch.size > this.base.size * LARGEST ? undefined : now;
  }

  override get(key: K): V | undefined {
    return this.patch.has(key) ? this.patch.get(key) : this.base.get(key);
  }

  override get size(): number {
    return this.pieces.reduce((sum, { size }) => sum + size, 0);
  }

  override *entries(): MapIterator<[K, V]> {
    for (const piece of this.pieces) yield* piece;
  }

  override forEach(act: (value: V, key: K, map: ReadonlyMap<K, V>) => void): void {
    for (const piece of this.pieces) for (const [key, value] of piece) act(value, key, this);
  }
}
