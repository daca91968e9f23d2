import { countSameEnds } from '../same-ends.ts';
import { MapView } from './map-view.ts';

/** A patch is laid over its map until it is this share of it; then both become a map of their own. */
const LARGEST = 1 / 8;

/** What a map was made from by exchanging pieces. */
interface Origin<K> {
  /** The name of that map: a link to it would keep every map of before in memory. */
  readonly name: symbol;
  /** The keys of the pieces that went or came. */
  readonly keys: ReadonlySet<K>;
}

/**
 * Many small maps seen as one, in their order; no two of them have a key in common. Where a few of them are exchanged, their
 * keys are laid over the map that was made of all, so that a large one need not be made again for a small change.
 */
export class PiecedMap<K, V, P = unknown> extends MapView<K, V> {
  private readonly name = Symbol();
  private pieces: readonly P[];
  private readonly mapOf: (piece: P) => ReadonlyMap<K, V>;
  /** What was made of all pieces of this map or of an earlier one. */
  private readonly base: ReadonlyMap<K, V>;
  /** What is otherwise now; undefined where there is nothing any more. */
  readonly patch: ReadonlyMap<K, V | undefined>;
  private origin: Origin<K> | undefined;
  private count: number;

  private constructor(
    pieces: readonly P[],
    mapOf: (piece: P) => ReadonlyMap<K, V>,
    base: ReadonlyMap<K, V>,
    patch: ReadonlyMap<K, V | undefined>,
    count: number,
  ) {
    super();
    this.pieces = pieces;
    this.mapOf = mapOf;
    this.base = base;
    this.patch = patch;
    this.count = count;
  }

  /**
   * @param mapOf the map of a piece, always the same one
   * @param before the pieces of an earlier version; the same map where they are the same
   * @returns of pieces with keys in common a plain map, in which the last one counts
   */
  static over<P, K, V>(
    pieces: readonly P[],
    mapOf: (piece: P) => ReadonlyMap<K, V>,
    before?: ReadonlyMap<K, V>,
  ): ReadonlyMap<K, V> {
    const exchanged =
      before instanceof PiecedMap ? (before as PiecedMap<K, V, P>).exchange(pieces) : undefined;
    if (exchanged) return exchanged;
    const base = new Map<K, V>();
    let count = 0;
    for (const piece of pieces) {
      const map = mapOf(piece);
      count += map.size;
      for (const [key, value] of map) base.set(key, value);
    }
    return base.size === count
      ? new PiecedMap(pieces, mapOf, base, new Map<K, V | undefined>(), count)
      : base;
  }

  /** Undefined where the map should be made anew. */
  private exchange(pieces: readonly P[]): PiecedMap<K, V, P> | undefined {
    const [past, present] = this.compare(pieces);
    if (past.length + present.length === 0) {
      this.pieces = pieces;
      return this;
    }
    const gone = new Set(past);
    const come = new Set(present);
    const patch = new Map(this.patch);
    const keys = new Set<K>();
    const put = (key: K, value: V | undefined): void => {
      patch.set(key, value);
      keys.add(key);
    };
    const now = new PiecedMap(pieces, this.mapOf, this.base, patch, this.count);
    now.origin = { name: this.name, keys };
    for (const map of gone) {
      if (come.has(map)) continue;
      now.count -= map.size;
      for (const key of map.keys()) put(key, undefined);
    }
    for (const map of come) {
      if (gone.has(map)) continue;
      now.count += map.size;
      for (const [key, value] of map) {
        if (now.has(key)) return undefined;
        put(key, value);
      }
    }
    return patch.size > this.base.size * LARGEST ? undefined : now;
  }

  /** The maps of pieces that went, and of those that came; one that stands elsewhere now is among both. */
  private compare(pieces: readonly P[]): readonly [past: ReadonlyMap<K, V>[], present: ReadonlyMap<K, V>[]] {
    const [start, end] = countSameEnds(this.pieces, pieces);
    const [past, present] = [this.pieces, pieces].map((all) => all.slice(start, all.length - end));
    if (!past || !present) return [[], []];
    const mapsOf = (some: readonly P[], others: readonly P[]) =>
      some.flatMap((piece, place) => {
        if (piece === others[place]) return [];
        const other = others[place];
        const map = this.mapOf(piece);
        return other !== undefined && this.mapOf(other) === map ? [] : [map];
      });
    // Of as many pieces most stand where they stood, also between two that were exchanged.
    return past.length === present.length
      ? [mapsOf(past, present), mapsOf(present, past)]
      : [past.map(this.mapOf), present.map(this.mapOf)];
  }

  /** The keys under which another map can hold something else; undefined where that is not known. */
  keysBeside(before: PiecedMap<K, V>): Iterable<K> | undefined {
    if (before === this) return [];
    if (this.origin?.name === before.name) return this.origin.keys;
    return before.base === this.base ? [...before.patch.keys(), ...this.patch.keys()] : undefined;
  }

  override get(key: K): V | undefined {
    return this.patch.has(key) ? this.patch.get(key) : this.base.get(key);
  }

  override get size(): number {
    return this.count;
  }

  override *entries(): MapIterator<[K, V]> {
    for (const piece of this.pieces) yield* this.mapOf(piece);
  }

  override forEach(act: (value: V, key: K, map: ReadonlyMap<K, V>) => void): void {
    for (const piece of this.pieces)
      this.mapOf(piece).forEach((value, key) => {
        act(value, key, this);
      });
  }

  override forEachLeaf(act: (leaf: ReadonlyMap<K, V>) => void): void {
    for (const piece of this.pieces) act(this.mapOf(piece));
  }
}
