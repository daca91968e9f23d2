import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { compareVersions } from '../../core/changes/changes.ts';
import { listFacts } from '../../core/changes/flat.ts';
import { say } from '../../core/language/say.ts';
import { CommandError } from '../command.ts';
import { listDefinitions } from '../git.ts';
import { createLoader, type Loaded } from '../load.ts';
import { printChangesText } from './print.ts';

/**
 * What git shows in place of changed lines. Git calls a driver with the path, and for both versions a file to read, its
 * hash and its mode; the files lie in a temporary folder, so sheets are looked for beside the path.
 * @throws CommandError for other operands
 */
export async function driveDiff(operands: readonly string[]): Promise<string> {
  const [path, oldFile, , , newFile] = operands;
  if (path === undefined || oldFile === undefined || newFile === undefined)
    throw new CommandError(say`--driver is for git, which gives it seven operands; see "fettle help diff".`);
  const [before, after] = [await loadAs(path, oldFile), await loadAs(path, newFile)];
  const changes = printChangesText(compareVersions(before.analysis, after.analysis), false);
  const shown = changes === '' ? `${say`Nothing follows from what differs.`}\n` : changes;
  return `fettle diff a/${path} b/${path}\n${shown}\n`;
}

/** The facts of a file as lines, for git to compare. The file may lie in a temporary folder under its own name. */
export async function convertToText(file: string): Promise<string> {
  const { analysis } = await loadAs(await pathInRepository(file), file);
  return `${listFacts(analysis).join('\n')}\n`;
}

/** A version that is not there is empty. */
async function loadAs(path: string, file: string): Promise<Loaded> {
  const text = file === '/dev/null' ? '' : await readText(file);
  return createLoader()(path, text.replace(/^\ufeff/, ''));
}

async function readText(file: string): Promise<string> {
  try {
    return await readFile(file, 'utf8');
  } catch {
    throw new CommandError(say`${file} cannot be read.`);
  }
}

/** Git gives a temporary file the name of the original one; where that name is the only one, its folder is known. */
async function pathInRepository(file: string): Promise<string> {
  const name = basename(file);
  const known = await listDefinitions().catch(() => []);
  const [only, ...others] = known.filter((each) => basename(each) === name);
  return only !== undefined && others.length === 0 ? only : file;
}
