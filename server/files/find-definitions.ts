import { URI, Utils } from 'vscode-uri';
import type { FileId } from '../core/world.ts';
import type { FolderEntry, ListFolder } from './files.ts';
import { keyOf } from './keys.ts';

/** Folders that hold nothing of the user's writing. */
const SKIPPED = new Set(['node_modules', 'dist', 'out']);
/** How deep and how far definitions are sought; enough for any project of machine definitions. */
const DEEPEST = 4;
const MOST_FOLDERS = 500;

/** The machines and part sheets in a folder and the folders in it, level by level. What cannot be read is passed over. */
export async function findDefinitions(folder: FileId, list: ListFolder): Promise<readonly FileId[]> {
  const found: FileId[] = [];
  let level: readonly FileId[] = [folder];
  for (let depth = 0, seen = 0; depth <= DEEPEST && level.length > 0; depth++) {
    const here = level.slice(0, MOST_FOLDERS - seen);
    seen += here.length;
    const entries = (await Promise.all(here.map((each) => listIn(each, list)))).flat();
    found.push(...entries.filter(isDefinition).map(({ file }) => file));
    level = entries.filter(mayHoldDefinitions).map(({ file }) => file);
  }
  return found;
}

interface Entry extends FolderEntry {
  readonly file: FileId;
}

async function listIn(folder: FileId, list: ListFolder): Promise<Entry[]> {
  const entries = await list(folder);
  return entries.map((entry) => ({
    ...entry,
    file: keyOf(Utils.joinPath(URI.parse(folder), entry.name).toString()),
  }));
}

const isDefinition = ({ kind, name }: Entry) => kind === 'file' && /\.(?:machine|part)\.ya?ml$/i.test(name);
const mayHoldDefinitions = ({ kind, name }: Entry) =>
  kind === 'folder' && !name.startsWith('.') && !SKIPPED.has(name);
