import { changesAmong } from './fact.ts';
import type { Evaluated, Reads, Source, Version } from './version.ts';

/** A member of a list, with what was worked out of it. */
export interface Entry<E, T> {
  readonly member: E;
  readonly result: T;
  /** Undefined where it rests on something that is never the same again. */
  readonly reads: Reads | undefined;
}

/** What was read under a key, and by which entries: all of them read the same, since any that did not would be stale. */
interface Reading<E, T> {
  readonly value: unknown;
  readonly by: Set<Entry<E, T>>;
}

/** Tells which of many entries rest on what an edit changed. It belongs to the newest version and changes with it. */
export class MembersByReads<E, T> {
  private readonly readings = new Map<Source | Evaluated, Map<unknown, Reading<E, T>>>();
  /** The entries that hold for one version alone. */
  private readonly fleeting = new Set<Entry<E, T>>();

  /**
   * The entries that rest on something that is another now.
   * @param heldIn the number of the version in which all of them stood
   */
  findStale(heldIn: number, version: Version): Set<Entry<E, T>> {
    const stale = new Set(this.fleeting);
    for (const [source, byKey] of this.readings) {
      for (const key of changesAmong(source, byKey, heldIn, version, ({ value }) => value)) {
        for (const entry of byKey.get(key)?.by ?? []) stale.add(entry);
      }
    }
    return stale;
  }

  add(entry: Entry<E, T>): void {
    if (!entry.reads) this.fleeting.add(entry);
    for (const [source, read] of entry.reads ?? []) {
      const byKey = this.readings.get(source) ?? new Map<unknown, Reading<E, T>>();
      this.readings.set(source, byKey);
      for (const [key, value] of read) {
        const reading = byKey.get(key);
        if (reading) reading.by.add(entry);
        else byKey.set(key, { value, by: new Set([entry]) });
      }
    }
  }

  remove(entry: Entry<E, T>): void {
    this.fleeting.delete(entry);
    for (const [source, read] of entry.reads ?? []) {
      const byKey = this.readings.get(source);
      for (const key of read.keys()) {
        const by = byKey?.get(key)?.by;
        by?.delete(entry);
        if (by?.size === 0) byKey?.delete(key);
      }
      if (byKey?.size === 0) this.readings.delete(source);
    }
  }
}
