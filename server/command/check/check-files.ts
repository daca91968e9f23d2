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

/**
 * Checks files, on threads when there are many, and hands the results over in the order of the files. Results that
 * come early wait for those before them, so what is kept is a few files at most.
 */
export async function checkFiles(
  files: readonly string[],
  given: GivenText | undefined,
  scope: ScopeData,
  { program }: Streams,
  take: (checked: Checked) => void,
): Promise<void> {
  const threads = program === undefined ? 1 : threadsFor(files.length);
  if (program !== undefined && threads > 1) {
    await checkOnThreads(program, threads, files, scope, inOrder(take));
    return;
  }
  const load = createLoader();
  const reported = await createScope(scope);
  for (const file of files) take(await checkFile(load, file, reported));
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
