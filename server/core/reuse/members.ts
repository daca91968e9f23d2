import { findChange } from './fact.ts';
import type { Evaluated, Reads, Source, Version } from './version.ts';

/** A member of a list, with what was worked out of it. */
export interface Entry<E, T> {
  readonly member: E;
  readonly result: T;
  /** What it rests on, until it is entered into the index; undefined where it rests on what is never the same again. */
  reads: Reads | undefined;
  /** The same in the index. There are very many entries, and a place in a list is a tenth of one in a map of its own. */
  readings?: readonly Reading<E, T>[];
}

/** What was read under a key, and by which entries: all of them read the same, since any that did not would be stale. */
interface Reading<E, T> {
  readonly source: Source | Evaluated;
  readonly key: unknown;
  readonly value: unknown;
  /** Most is read by one alone, which needs no set. */
  by: Entry<E, T> | Set<Entry<E, T>> | undefined;
}

const valueRead = ({ value }: { readonly value: unknown }): unknown => value;

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
      findChange(source, byKey, heldIn, version, valueRead, (_, { by }) => {
        if (by instanceof Set) for (const entry of by) stale.add(entry);
        else if (by) stale.add(by);
        return false;
      });
    }
    return stale;
  }

  add(entry: Entry<E, T>): void {
    if (!entry.reads) this.fleeting.add(entry);
    const readings: Reading<E, T>[] = [];
    for (const [source, read] of entry.reads ?? []) {
      const byKey = this.readings.get(source) ?? new Map<unknown, Reading<E, T>>();
      this.readings.set(source, byKey);
      for (const [key, value] of read) {
        const reading = byKey.get(key) ?? { source, key, value, by: undefined };
        byKey.set(key, reading);
        readings.push(reading);
        if (reading.by instanceof Set) reading.by.add(entry);
        else reading.by = reading.by ? new Set([reading.by, entry]) : entry;
      }
    }
    entry.readings = readings;
    entry.reads = undefined;
  }

  remove(entry: Entry<E, T>): void {
    this.fleeting.delete(entry);
    for (const reading of entry.readings ?? []) {
      const { source, key, by } = reading;
      if (by instanceof Set) by.delete(entry);
      if (by instanceof Set && by.size > 0) continue;
      const byKey = this.readings.get(source);
      byKey?.delete(key);
      if (byKey?.size === 0) this.readings.delete(source);
    }
  }
}
