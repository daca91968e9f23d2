import { findChange } from './fact.ts';
import { PassingMap } from './passing-map.ts';
import type { ReadList } from './recording.ts';
import type { Evaluated, Source, Version } from './version.ts';

/** A member of a list, with what was worked out of it. */
export interface Entry<E, T> {
  readonly member: E;
  result: T;
  /** What it rests on, in the index. There are very many entries, and a place in a list is a tenth of one in a map of its own. */
  readings: readonly Reading<E, T>[];
}

/** What was read under a key, and by which entries: all of them read the same, since any that did not would be stale. */
interface Reading<E, T> {
  readonly source: Source | Evaluated;
  readonly key: unknown;
  value: unknown;
  /** Most is read by one alone, which needs no set. */
  by: Entry<E, T> | Set<Entry<E, T>> | undefined;
  /** When it was last entered, to tell what an entry rests on still from what it rested on before. */
  round: number;
}

const valueRead = ({ value }: { readonly value: unknown }): unknown => value;

/** Tells which of many entries rest on what an edit changed. It belongs to the newest version and changes with it. */
export class MembersByReads<E, T> {
  private readonly readings = new Map<Source | Evaluated, PassingMap<unknown, Reading<E, T>>>();
  /** The entries that hold for one version alone. */
  private readonly fleeting = new Set<Entry<E, T>>();
  private round = 0;

  /**
   * The entries that rest on something that is another now.
   * @param heldIn the number of the version in which all of them stood
   */
  findStale(heldIn: number, version: Version): Set<Entry<E, T>> {
    const stale = new Set(this.fleeting);
    for (const [source, byKey] of this.readings) {
      findChange(source, byKey.map, heldIn, version, valueRead, (_, { by }) => {
        if (by instanceof Set) for (const entry of by) stale.add(entry);
        else if (by) stale.add(by);
        return false;
      });
    }
    return stale;
  }

  /**
   * Enters what an entry rests on, in the place of what it rested on before; for the most part that is the same.
   * @param reads undefined where it rests on what is never the same again
   */
  enter(entry: Entry<E, T>, reads: ReadList | undefined): void {
    if (reads) this.fleeting.delete(entry);
    else this.fleeting.add(entry);
    const round = ++this.round;
    const readings: Reading<E, T>[] = [];
    for (let at = 0; reads && at < reads.length; at += 3) {
      const reading = this.readingOf(reads[at] as Source | Evaluated, reads[at + 1]);
      if (reading.round === round) continue;
      reading.round = round;
      // Where this is another value than before, all others that read it are stale, and are entered anew or removed.
      reading.value = reads[at + 2];
      const { by } = reading;
      if (by instanceof Set) by.add(entry);
      else if (by !== entry) reading.by = by ? new Set([by, entry]) : entry;
      readings.push(reading);
    }
    for (const reading of entry.readings) if (reading.round !== round) this.leave(reading, entry);
    entry.readings = readings;
  }

  remove(entry: Entry<E, T>): void {
    this.fleeting.delete(entry);
    for (const reading of entry.readings) this.leave(reading, entry);
  }

  private readingOf(source: Source | Evaluated, key: unknown): Reading<E, T> {
    let byKey = this.readings.get(source);
    if (!byKey) {
      byKey = new PassingMap();
      this.readings.set(source, byKey);
    }
    let reading = byKey.map.get(key);
    if (!reading) {
      reading = { source, key, value: undefined, by: undefined, round: 0 };
      byKey.map.set(key, reading);
    }
    return reading;
  }

  private leave({ source, key, by }: Reading<E, T>, entry: Entry<E, T>): void {
    if (by instanceof Set) by.delete(entry);
    if (by instanceof Set && by.size > 0) return;
    const byKey = this.readings.get(source);
    byKey?.delete(key);
    if (byKey?.map.size === 0) this.readings.delete(source);
  }
}
