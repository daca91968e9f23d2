import { existsSync } from 'node:fs';
import { stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import type { Analysis } from '../core/analysis.ts';
import { createFettle, type Fettle } from '../core/fettle.ts';
import { say } from '../core/language/say.ts';
import type { FileId } from '../core/world.ts';
import { readFromDisk } from '../files/disk.ts';
import { createFiles, type Files } from '../files/files.ts';
import { openLibrary } from '../files/library.ts';
import { libraryFolder } from '../files/shipped.ts';
import { CommandError } from './command.ts';
import { keyOfPath } from './paths.ts';

/** A file given on the command line, analysed with everything that it names. */
export interface Loaded {
  /** As it was given. */
  readonly path: string;
  readonly fettle: Fettle;
  readonly files: Files;
  readonly analysis: Analysis;
}

/** Loads files into one world, so that sheets which many machines share are read and parsed once. */
export interface Loader {
  /** @throws CommandError when the file cannot be read; a text that is given is taken in place of the file's */
  (path: string, given?: string): Promise<Loaded>;
  /** Lets go of a file that is done with, and of sheets when there are many, so that memory stays flat. */
  readonly forget: (loaded: Loaded) => void;
}

/** Far more sheets than one machine has; a run over folders that each bring their own must not keep them all. */
const MOST_SHEETS = 300;
/** What was fetched can name no further files, but for those of the project; a few rounds are more than enough. */
const MOST_ROUNDS = 3;

/**
 * Makes a loader with a world of its own.
 * @param read reads files from somewhere else than from disk
 */
export function createLoader(read: typeof readFromDisk = readFromDisk): Loader {
  const library = openLibrary(libraryFolder());
  const folders = new Set([keyOfPath(projectFolder(process.cwd()))]);
  const files = createFiles({
    library,
    folders: () => [...folders],
    openText: () => undefined,
    openFiles: () => [],
    read,
  });
  const fettle = createFettle(files.world, false);
  const sheets = new Set<FileId>();
  const load = async (path: string, given?: string): Promise<Loaded> => {
    const key = keyOfPath(path);
    folders.add(keyOfPath(projectFolder(dirname(resolve(path)))));
    const text = given ?? (await readGiven(path, key, [...folders], read));
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const wants = fettle.wantsOf(key, text);
      for (const wanted of wants) sheets.add(wanted);
      if (!(await files.fetch(wants))) break;
    }
    return { path, fettle, files, analysis: fettle.analyse(key, text) };
  };
  const forget = ({ analysis }: Loaded) => {
    fettle.forget(analysis.file);
    if (sheets.size <= MOST_SHEETS) return;
    for (const sheet of sheets) {
      files.forget(sheet);
      fettle.forget(sheet);
    }
    sheets.clear();
  };
  return Object.assign(load, { forget });
}

/**
 * The folder inside which sheets may be read: the git checkout that holds a folder, as an editor opens it; the folder
 * itself when there is none.
 */
function projectFolder(folder: string): string {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, '.git'))) return at;
    if (dirname(at) === at) return folder;
  }
}

/** @throws CommandError when the file cannot be read, with the reason */
async function readGiven(
  path: string,
  key: string,
  folders: readonly string[],
  read: typeof readFromDisk,
): Promise<string> {
  const state = await read(key, folders);
  switch (state.kind) {
    case 'text':
      if (state.text.includes('\0')) throw new CommandError(say`${path} is not a text file.`);
      return state.text.replace(/^\ufeff/, ''); // editors take the byte order mark away too, so columns agree
    case 'missing':
      throw new CommandError(say`${path} does not exist.`);
    case 'outside':
      throw new CommandError(say`${path} is a link to a place outside its folder, which is not read.`);
    case 'too-large':
      throw new CommandError(
        say`${path} has ${state.bytes} bytes; files of more than ${state.most} are not read.`,
      );
    case 'unreadable':
      throw new CommandError(
        (await isFolder(path))
          ? say`${path} cannot be read: it is a folder; name the files in it, e.g. ${path.replace(/[/\\]$/, '')}/*.machine.yaml.`
          : say`${path} cannot be read: ${state.why}.`,
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
