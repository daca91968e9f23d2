import { stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { URI } from 'vscode-uri';
import type { Analysis } from '../core/analysis.ts';
import { createFettle, type Fettle } from '../core/fettle.ts';
import { readFromDisk } from '../files/disk.ts';
import { createFiles, type Files } from '../files/files.ts';
import { isInside, keyOf } from '../files/keys.ts';
import { openLibrary } from '../files/library.ts';
import { libraryFolder } from '../files/shipped.ts';
import { CommandError } from './command.ts';

/** A file given on the command line, analysed with everything that it names. */
export interface Loaded {
  /** As it was given. */
  readonly path: string;
  readonly fettle: Fettle;
  readonly files: Files;
  readonly analysis: Analysis;
}

/** Makes a loader over one world, so that sheets which many machines share are read once. */
export function createLoader(): (path: string) => Promise<Loaded> {
  const library = openLibrary(libraryFolder());
  const here = keyOf(URI.file(process.cwd()).toString());
  const folders = new Set([here]);
  const files = createFiles({ library, folders: () => [...folders], openText: () => undefined });
  const fettle = createFettle(files.world);
  return async (path) => {
    const key = keyOf(URI.file(resolve(path)).toString());
    if (!isInside(here, key)) folders.add(keyOf(URI.file(dirname(resolve(path))).toString()));
    const text = await readGiven(path, key, [...folders]);
    let analysis = fettle.analyse(key, text);
    if (await files.fetch(analysis.wants)) analysis = fettle.analyse(key, text);
    return { path, fettle, files, analysis };
  };
}

/** @throws CommandError when the file cannot be read, with the reason */
async function readGiven(path: string, key: string, folders: readonly string[]): Promise<string> {
  const state = await readFromDisk(key, folders);
  switch (state.kind) {
    case 'text':
      return state.text.replace(/^\ufeff/, ''); // editors take the byte order mark away too, so columns agree
    case 'missing':
      throw new CommandError(`${path} does not exist.`);
    case 'outside':
      throw new CommandError(`${path} is a link to a place outside its folder, which is not read.`);
    case 'too-large':
      throw new CommandError(
        `${path} has ${state.bytes} bytes; files of more than ${state.most} are not read.`,
      );
    case 'unreadable':
      throw new CommandError(
        `${path} cannot be read: ${(await isFolder(path)) ? 'it is a folder; name the files in it' : state.why}.`,
      );
  }
}

async function isFolder(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch {
    return false;
  }
}
