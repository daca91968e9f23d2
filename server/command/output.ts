import { later, say } from '../core/language/say.ts';
import { writeWhole } from '../files/write.ts';
import { CommandError, type Streams } from './command.ts';

/** The options of a command whose result may go to a file. */
export const OUTPUT_OPTIONS = {
  output: { takes: 'FILE', short: 'o', about: later`write to a file in place of standard output` },
  overwrite: { about: later`write the file even when it is there already` },
} as const;

/**
 * Writes a command's result to standard output, or whole to the file that was named.
 * @throws CommandError when the file is there and may not be overwritten, or cannot be written
 */
export async function writeResult(
  text: string,
  { output, overwrite }: { readonly output: string | undefined; readonly overwrite: boolean },
  streams: Streams,
): Promise<void> {
  if (output === undefined) {
    streams.out(text);
    return;
  }
  await writeFileWhole(output, text, overwrite);
  streams.err(`Wrote ${output}.\n`);
}

/** @throws CommandError when the file is there and may not be overwritten, or cannot be written */
export async function writeFileWhole(path: string, text: string, overwrite: boolean): Promise<void> {
  const written = await writeWhole(path, text, overwrite);
  if (written.kind === 'exists')
    throw new CommandError(say`${path} is there already; give --overwrite to replace it, or another name.`);
  if (written.kind === 'failed') throw new CommandError(say`${path} cannot be written: ${written.why}.`);
}
