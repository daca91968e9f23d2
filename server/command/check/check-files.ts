import type { Streams } from '../command.ts';
import { createLoader } from '../load.ts';
import { type Checked, checkFile } from './checked.ts';
import { createScope, type ScopeData } from './scope.ts';
import { checkOnThreads, threadsFor } from './threads.ts';

/** Standard input, when it is checked in the place of a file. */
export interface GivenText {
  readonly path: string;
  readonly text: string;
}

/** What is checked, and what of it is reported. */
export interface Work {
  readonly files: readonly string[];
  readonly given: GivenText | undefined;
  readonly scope: ScopeData;
  /** How many threads, where that was asked for. */
  readonly threads: number | undefined;
}

/**
 * Checks files, on threads when there are many, and hands the results over in the order of the files. Results that
 * come early wait for those before them, so what is kept is a few files at most.
 */
export async function checkFiles(
  { files, given, scope, threads: wanted }: Work,
  { program }: Streams,
  take: (checked: Checked) => void,
): Promise<void> {
  const threads = program === undefined ? 1 : (wanted ?? threadsFor(files.length));
  const onThreads = program !== undefined && threads > 1 && files.length > 1;
  if (onThreads) await checkOnThreads(program, Math.min(threads, files.length), files, scope, inOrder(take));
  if (onThreads && !given) return;
  const load = createLoader();
  const reported = await createScope(scope);
  if (!onThreads) for (const file of files) take(await checkFile(load, file, reported));
  if (given) take(await checkFile(load, given.path, reported, given.text));
}

function inOrder(take: (checked: Checked) => void): (index: number, checked: Checked) => void {
  const waiting = new Map<number, Checked>();
  let next = 0;
  return (index, checked) => {
    waiting.set(index, checked);
    for (let ready = waiting.get(next); ready; ready = waiting.get(next)) {
      waiting.delete(next++);
      take(ready);
    }
  };
}
