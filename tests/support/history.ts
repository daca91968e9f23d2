import fs from 'node:fs';
import path from 'node:path';
import { parse } from 'yaml';
import { z } from 'zod';
import { git, makeFolder, writeFile } from './cli.ts';
import type { Example } from './examples.ts';
import { ROOT } from './lsp-client.ts';

const revision = z.strictObject({
  date: z.string(),
  message: z.string(),
  /** What the text said before, and what it says since. */
  changes: z.array(z.strictObject({ from: z.string(), to: z.string() })).min(1),
  /** What `fettle diff` says of it. */
  follows: z.array(z.string()).min(1),
});

/** One dated change of an example. */
export type Revision = z.infer<typeof revision>;

/** The changes that made an example what it is, oldest first. */
export function readHistory(name: string): readonly Revision[] {
  const file = path.join(ROOT, 'tests/fixtures/histories', `${name}.yaml`);
  return z.array(revision).parse(parse(fs.readFileSync(file, 'utf8')));
}

/**
 * Plays the history of an example into a git repository of its own: a first commit with the machine as it was before
 * the oldest change, then one for each change, with its date. Throws where a change does not fit the text.
 * @returns the folder of the repository
 */
export async function playHistory(example: Example, history: readonly Revision[]): Promise<string> {
  const folder = makeFolder(Object.fromEntries(example.files));
  await git(folder, 'init', '-q');
  const messages = ['The machine as it was', ...history.map(({ message }) => message)];
  const dates = [history[0]?.date, ...history.map(({ date }) => date)];
  for (const [index, text] of textsOf(example, history).entries()) {
    writeFile(folder, example.machine, text);
    await git(folder, 'add', '.');
    await git(folder, 'commit', '-q', '--date', `${dates[index]}T12:00:00Z`, '-m', messages[index] ?? '');
  }
  return folder;
}

/** The machine before the oldest change and after each: what ships, with the newer changes taken back. */
function textsOf({ machine, files }: Example, history: readonly Revision[]): string[] {
  let text = files.get(machine) ?? '';
  const texts = [text];
  for (const { changes } of history.toReversed()) {
    for (const { from, to } of changes) {
      if (!text.includes(to)) throw new Error(`the machine does not say: ${to}`);
      text = text.replaceAll(to, from);
    }
    text = text.replace(/^revision: (\d+)$/m, (_, number) => `revision: ${Number(number) - 1}`);
    texts.unshift(text);
  }
  return texts;
}
