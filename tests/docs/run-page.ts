import fs from 'node:fs';
import path from 'node:path';
import { makeFolder, runHere, writeFile } from '../support/cli.ts';
import { addToSection, applyDiff, type Block, matches, readBlocks, readConsole } from './blocks.ts';

/** What a page did not keep. */
export interface Broken {
  readonly line: number;
  readonly what: string;
}

/** Executes the blocks of a page from top to bottom in a folder of their own. Says what differs; empty when all is as it says. */
export async function runPage(
  page: string,
  before: Readonly<Record<string, string>> = {},
): Promise<Broken[]> {
  const folder = makeFolder(before);
  try {
    const broken: Broken[] = [];
    for (const block of readBlocks(page))
      for (const what of await runBlock(folder, block)) broken.push({ line: block.line, what });
    return broken;
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
}

async function runBlock(folder: string, block: Block): Promise<string[]> {
  const { language, file, section, lines } = block;
  if (language === 'text') return [];
  if (language === 'console') return runConsole(folder, lines);
  if (file === undefined || !['yaml', 'diff'].includes(language)) return ['nobody would execute this block'];
  const place = path.join(folder, file);
  const text = fs.existsSync(place) ? fs.readFileSync(place, 'utf8') : '';
  try {
    if (language === 'diff') writeFile(folder, file, applyDiff(text, lines));
    else if (section !== undefined) writeFile(folder, file, addToSection(text, section, lines));
    else writeFile(folder, file, `${lines.join('\n')}\n`);
  } catch (failure) {
    return [(failure as Error).message];
  }
  return [];
}

async function runConsole(folder: string, lines: readonly string[]): Promise<string[]> {
  const broken: string[] = [];
  for (const { command, expected } of readConsole(lines)) {
    const printed = await runCommandLine(folder, command);
    if (!matches(expected, printed)) broken.push(`$ ${command}\n${printed}`);
  }
  return broken;
}

/** Runs `fettle …` as if in a folder: files are meant there, and its path is not shown. */
async function runCommandLine(folder: string, command: string): Promise<string> {
  const [program, ...words] = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map(
    ([, quoted, bare]) => quoted ?? bare ?? '',
  );
  if (program !== 'fettle') return `${program} is not run here`;
  const isFile = (word: string) =>
    fs.existsSync(path.join(folder, word)) || /\.(?:machine|part)\.yaml$/.test(word);
  const args = words.map((word) => (isFile(word) ? path.join(folder, word) : word));
  const { out, err } = await runHere(args);
  return `${out}${err}`.replaceAll(`${folder}/`, '').replaceAll(`${path.relative('.', folder)}/`, '');
}
