import { readFile, writeFile } from 'node:fs/promises';
import type { TextChange } from '../core/features/formatting.ts';
import { later, say } from '../core/language/say.ts';
import { CommandError, defineCommand, EXIT, type Streams } from './command.ts';
import { createLoader, type Loaded } from './load.ts';

/** `fettle fmt`: lays files out as the editor does. */
export const fmt = defineCommand({
  name: 'fmt',
  operands: 'FILES',
  about: later`lay machines and part sheets out evenly; only blanks change`,
  details: later`Indents by two, puts the flow maps of neighbouring lines in a column, and spaces brackets, commas and arrows evenly.
Where a line has more blanks than it needs, its neighbours are lined up with it: columns that somebody began are kept.
Lines, blank lines and comments stay. What cannot be read stays as it is.`,
  options: { check: { about: later`change nothing; exit with 1 where a file would change, and name it` } },
  examples: ['fettle fmt --check sheets/*.part.yaml'],
  run: ({ operands, options }, streams) => formatFiles(operands, options.check, streams),
});

async function formatFiles(files: readonly string[], onlyCheck: boolean, streams: Streams): Promise<number> {
  if (files.length === 0)
    throw new CommandError(say`fmt needs at least one file. "fettle help fmt" shows an example.`);
  const load = createLoader();
  let [changed, unread] = [0, 0];
  for (const file of files) {
    try {
      if (!(await formatFile(await load(file), onlyCheck))) continue;
      changed += 1;
      streams.out(`${file}\n`);
    } catch (failure) {
      if (!(failure instanceof CommandError)) throw failure;
      unread += 1;
      streams.err(`fettle: ${failure.message}\n`);
    }
  }
  streams.err(
    `${say`${files.length - unread} of ${files.length} files read, ${changed} ${onlyCheck ? 'would change' : 'changed'}.`}\n`,
  );
  if (unread > 0) return EXIT.cannot;
  return onlyCheck && changed > 0 ? EXIT.findings : EXIT.clean;
}

/** True where the file changed or would. */
async function formatFile({ path, fettle, analysis }: Loaded, onlyCheck: boolean): Promise<boolean> {
  const changes = fettle.format(analysis);
  if (changes.length === 0) return false;
  if (onlyCheck) return true;
  const bytes = await readFile(path);
  const whole = bytes.toString('utf8');
  const mark = whole.startsWith('\uFEFF') ? '\uFEFF' : '';
  // Bytes that are no text would be lost, and what changed since it was read would be undone.
  if (!Buffer.from(whole).equals(bytes) || whole !== mark + analysis.tree.text)
    throw new CommandError(
      say`${path} is not plain UTF-8 text, or it has just been changed; it is left as it is.`,
    );
  await write(path, mark + applyChanges(analysis.tree.text, changes));
  return true;
}

async function write(path: string, text: string): Promise<void> {
  try {
    await writeFile(path, text);
  } catch (failure) {
    throw new CommandError(
      say`${path} cannot be written: ${(failure as { code?: string }).code ?? say`the system refused`}.`,
    );
  }
}

/** Changes stand in the order of the text and do not overlap. */
function applyChanges(text: string, changes: readonly TextChange[]): string {
  let out = '';
  let end = 0;
  for (const change of changes) {
    out += text.slice(end, change.from) + change.text;
    end = change.to;
  }
  return out + text.slice(end);
}
