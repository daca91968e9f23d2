import { existsSync } from 'node:fs';
import { say } from '../../core/language/say.ts';
import { CommandError } from '../command.ts';
import { commitOf } from '../git.ts';
import { createLoader, type Loaded } from '../load.ts';
import { readerOf } from './revision.ts';

/** One of the two versions: a file, or a file as it stood in a revision. */
export interface Side {
  readonly file: string;
  readonly revision: string | undefined;
}

/** The two versions that were asked for. @throws CommandError for anything but two of them */
export function readSides(operands: readonly string[], revision: string | undefined): readonly [Side, Side] {
  const [first, second, ...others] = operands;
  if (revision !== undefined) {
    if (first === undefined || second !== undefined)
      throw new CommandError(
        say`with --git, diff takes one file, e.g. fettle diff --git HEAD router.machine.yaml`,
      );
    return [
      { file: first, revision },
      { file: first, revision: undefined },
    ];
  }
  if (first === undefined || second === undefined || others.length > 0)
    throw new CommandError(
      say`diff takes two versions, e.g. fettle diff HEAD:router.machine.yaml router.machine.yaml, or --git REV and a file.`,
    );
  return [readSide(first), readSide(second)];
}

/** `REV:FILE`, unless there is a file of that very name. */
function readSide(operand: string): Side {
  const colon = operand.indexOf(':');
  if (colon <= 0 || existsSync(operand)) return { file: operand, revision: undefined };
  return { file: operand.slice(colon + 1), revision: operand.slice(0, colon) };
}

/** Loads a version with the sheets of the same version. @throws CommandError when it cannot be read */
export async function loadSide({ file, revision }: Side): Promise<Loaded> {
  if (revision === undefined) return createLoader()(file);
  const commit = await commitOf(revision);
  try {
    return await createLoader(await readerOf(commit))(file);
  } catch (failure) {
    if (!(failure instanceof CommandError)) throw failure;
    throw new CommandError(say`${failure.message.replace(/\.$/, '')} in ${revision}.`);
  }
}
