import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { URI, Utils } from 'vscode-uri';
import { say } from '../core/language/say.ts';
import type { FileId, FileState } from '../core/world.ts';
import { keyOf } from './keys.ts';

/** The part sheets that ship with the tool, in a folder beside the program. */
export interface Library {
  readonly folder: FileId;
  /** `generic/NAME` of each sheet, sorted. */
  readonly names: readonly string[];
  /** The file of a library name; undefined for other paths. */
  readonly find: (path: string) => FileId | undefined;
  /**
   * One of its sheets, read when it is first wanted and kept. It does not wait: a cure may look through the whole
   * library, and the start should not have to.
   */
  readonly read: (file: FileId) => FileState;
}

const PREFIX = 'generic/';
const SUFFIX = '.part.yaml';

/** Opens the library in a folder. An unreadable folder is an empty library: the findings will say what is missing. */
export function openLibrary(folderPath: string): Library {
  const folder = keyOf(URI.file(folderPath).toString());
  const fileOf = (name: string) => keyOf(Utils.joinPath(URI.parse(folder), name + SUFFIX).toString());
  const names = listSheets(folderPath).map((file) => file.slice(0, -SUFFIX.length));
  const known = new Map(names.map((name) => [name, fileOf(name)]));
  const paths = new Map([...known].map(([name, file]) => [file, join(folderPath, name + SUFFIX)]));
  const texts = new Map<FileId, FileState>();
  const read = (file: FileId): FileState => {
    const state = texts.get(file) ?? readSheet(paths.get(file));
    texts.set(file, state);
    return state;
  };
  return {
    read,
    folder,
    names: names.map((name) => PREFIX + name),
    find: (path) => {
      if (!path.startsWith(PREFIX)) return undefined;
      const name = path.slice(PREFIX.length).replace(/\.part\.ya?ml$/, '');
      return known.get(name) ?? (/^[\w.-]+$/.test(name) ? fileOf(name) : undefined);
    },
  };
}

function readSheet(path: string | undefined): FileState {
  try {
    return path === undefined ? { kind: 'missing' } : { kind: 'text', text: readFileSync(path, 'utf8') };
  } catch {
    return { kind: 'unreadable', why: say`the system could not read it` };
  }
}

function listSheets(folderPath: string): string[] {
  try {
    return readdirSync(folderPath)
      .filter((file) => file.endsWith(SUFFIX))
      .sort();
  } catch {
    return [];
  }
}
