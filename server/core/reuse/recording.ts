import type { Evaluated, Reads, Source, Version } from './version.ts';

/** What is being worked out now, and what it has read so far. */
interface Recording {
  readonly version: Version;
  readonly reads: Reads;
  isLasting: boolean;
}

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
  const byKey = current.reads.get(source);
  if (byKey) byKey.set(key, value);
  else current.reads.set(source, new Map([[key, value]]));
}

/** Notes that what is being worked out rests on something that can be another at any time. */
export function noteFleeting(): void {
  if (current) current.isLasting = false;
}

/** Works something out, and gathers what it rests on; undefined where that does not last. */
export function record<T>(
  version: Version,
  work: () => T,
): { readonly result: T; readonly reads: Reads | undefined } {
  const outer = current;
  const own: Recording = { version, reads: new Map(), isLasting: true };
  current = own;
  try {
    const result = work();
    return { result, reads: own.isLasting ? own.reads : undefined };
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
