import { readdirSync } from 'node:fs';
import { URI, Utils } from 'vscode-uri';
import type { FileId } from '../core/world.ts';
import { keyOf } from './keys.ts';

/** The part sheets that ship with the tool, in a folder beside the program. */
export interface Library {
  readonly folder: FileId;
  /** `generic/NAME` of each sheet, sorted. */
  readonly names: readonly string[];
  /** The file of a library name; undefined for other paths. */
  readonly find: (path: string) => FileId | undefined;
}

const PREFIX = 'generic/';
const SUFFIX = '.part.yaml';

/** Opens the library in a folder. An unreadable folder is an empty library: the findings will say what is missing. */
export function openLibrary(folderPath: string): Library {
  const folder = keyOf(URI.file(folderPath).toString());
  const fileOf = (name: string) => keyOf(Utils.joinPath(URI.parse(folder), name + SUFFIX).toString());
  const names = listSheets(folderPath).map((file) => file.slice(0, -SUFFIX.length));
  const known = new Map(names.map((name) => [name, fileOf(name)]));
  return {
    folder,
    names: names.map((name) => PREFIX + name),
    find: (path) => {
      if (!path.startsWith(PREFIX)) return undefined;
      const name = path.slice(PREFIX.length).replace(/\.part\.ya?ml$/, '');
      return known.get(name) ?? (/^[\w.-]+$/.test(name) ? fileOf(name) : undefined);
    },
  };
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
