import { existsSync } from 'node:fs';
import { say } from '../../core/language/say.ts';
import { expandPattern, isPattern } from '../../files/glob.ts';
import { CommandError } from '../command.ts';
import { commitOf, listChanged, listDefinitions } from '../git.ts';
import { keyOfPath } from '../paths.ts';
import type { ScopeData } from './scope.ts';

/** What was asked to be checked. */
export interface Wish {
  readonly operands: readonly string[];
  readonly changedSince: string | undefined;
  readonly shard: string | undefined;
}

/** The files to check, each once, and which of them to report. @throws CommandError when nothing was asked for */
export async function selectFiles(wish: Wish): Promise<{ files: readonly string[]; scope: ScopeData }> {
  const { operands, changedSince, shard } = wish;
  if (operands.length === 0 && changedSince === undefined)
    throw new CommandError(say`check needs at least one file. "fettle help check" shows an example.`);
  const commit = changedSince === undefined ? undefined : await commitOf(changedSince);
  const named = operands.length > 0 ? await expand(operands) : (await listDefinitions()).filter(existsSync);
  return {
    files: takeShard([...new Set(named)], shard),
    scope:
      commit === undefined ? {} : { since: { commit, files: (await listChanged(commit)).map(keyOfPath) } },
  };
}

/** A name that exists is that file, whatever signs are in it. */
async function expand(operands: readonly string[]): Promise<string[]> {
  const lists = operands.map(async (operand) => {
    if (!isPattern(operand) || existsSync(operand)) return [operand];
    const found = await expandPattern(operand);
    if (found.length === 0) throw new CommandError(say`no file is meant by ${operand}.`);
    return found;
  });
  return (await Promise.all(lists)).flat();
}

/** Every n-th file, so that shards of files that are sorted by size or age take about the same time. */
function takeShard(files: readonly string[], shard: string | undefined): readonly string[] {
  if (shard === undefined) return files;
  const [, index, count] = /^(\d{1,6})\/(\d{1,6})$/.exec(shard)?.map(Number) ?? [];
  if (index === undefined || count === undefined || index < 1 || index > count)
    throw new CommandError(say`--shard takes i/n with i from 1 to n, e.g. 1/4; "${shard}" is not.`);
  return files.filter((_, at) => at % count === index - 1);
}
