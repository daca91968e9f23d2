import type { Evaluated, Reads, Source, Version } from './version.ts';

/** What is being worked out now, and how what it reads is noted. */
interface Recording {
  readonly version: Version;
  readonly note: Note;
  isLasting: boolean;
}

type Note = (source: Source | Evaluated, key: unknown, value: unknown) => void;

let current: Recording | undefined;

/** What happens when something of another version is read while a fact is worked out; a test makes it an error. */
let whenForeign: (() => void) | undefined;

/** Notes that what is being worked out rests on something. Outside of any work this does nothing. */
export function noteRead(version: Version, source: Source | Evaluated, key: unknown, value: unknown): void {
  if (!current) return;
  if (current.version !== version) {
    current.isLasting = false;
    whenForeign?.();
    return;
  }
  current.note(source, key, value);
}

/** Notes that what is being worked out rests on something that can be another at any time. */
export function noteFleeting(): void {
  if (current) current.isLasting = false;
}

/** Works something out, and gathers what it rests on; undefined where that does not last, or nobody will ask. */
export function record<T>(version: Version, work: () => T): Recorded<T, Reads> {
  const reads: Reads[number][] = [];
  const places = new Map<Source | Evaluated, number>();
  return noting(version, work, reads, (source, key, value) => {
    // Most is read again and again from few sources, and most facts read from no more than a few.
    const place = reads.length > FEW ? places.get(source) : placeOf(reads, source);
    if (place !== undefined) {
      reads[place]?.byKey.set(key, value);
      return;
    }
    const byKey = new Map<unknown, unknown>();
    byKey.set(key, value);
    reads.push({ source, byKey });
    if (reads.length > FEW)
      for (let at = places.size; at < reads.length; at++) places.set((reads[at] as Reads[number]).source, at);
  });
}

/** Among so many sources one is found quickest by a look at each. */
const FEW = 12;

function placeOf(reads: Reads, source: Source | Evaluated): number | undefined {
  for (let at = reads.length - 1; at >= 0; at--) if (reads[at]?.source === source) return at;
  return undefined;
}

/**
 * The same for one of very many things, each of which reads little: what it rests on is one list, source, key and value in
 * turn, in which something that was read twice stands twice.
 */
export function recordList<T>(version: Version, work: () => T): Recorded<T, ReadList> {
  const reads: unknown[] = [];
  return noting(version, work, reads, (source, key, value) => {
    reads.push(source, key, value);
  });
}

/** What was read: a source, a key there, the value, and so on. */
export type ReadList = readonly unknown[];

interface Recorded<T, R> {
  readonly result: T;
  readonly reads: R | undefined;
}

function noting<T, R>(version: Version, work: () => T, reads: R, note: Note): Recorded<T, R> {
  if (!version.isFollowed) return { result: unrecorded(work), reads: undefined };
  const outer = current;
  const own: Recording = { version, note, isLasting: true };
  current = own;
  try {
    const result = work();
    return { result, reads: own.isLasting ? reads : undefined };
  } finally {
    current = outer;
  }
}

/** Does something of which nothing is noted: the question whether an old result still holds. */
export function unrecorded<T>(work: () => T): T {
  const outer = current;
  current = undefined;
  try {
    return work();
  } finally {
    current = outer;
  }
}

/** For tests: what to do when a result that was taken over reads from the version that it came from. */
export function onForeignRead(act: (() => void) | undefined): void {
  whenForeign = act;
}
