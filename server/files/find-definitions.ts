import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { URI } from 'vscode-uri';
import type { FileId } from '../core/world.ts';
import { keyOf } from './keys.ts';

/** Folders that hold nothing of the user's writing. */
const SKIPPED = new Set(['node_modules', 'dist', 'out']);
/** How deep and how far definitions are sought; enough for any project of machine definitions. */
const DEEPEST = 4;
const MOST_FOLDERS = 500;

/** The machines and part sheets in a folder and the folders in it. What cannot be read is passed over. */
export async function listDefinitionsOnDisk(folder: FileId): Promise<readonly FileId[]> {
  const uri = URI.parse(folder);
  if (uri.scheme !== 'file') return [];
  const found: FileId[] = [];
  let open = [uri.fsPath];
  for (let depth = 0, seen = 0; depth <= DEEPEST && open.length > 0; depth++) {
    const next: string[] = [];
    for (const path of open) {
      if (++seen > MOST_FOLDERS) return found;
      for (const entry of await listFolder(path)) {
        if (entry.isDirectory() && !entry.name.startsWith('.') && !SKIPPED.has(entry.name))
          next.push(join(path, entry.name));
        if (entry.isFile() && /\.(?:machine|part)\.ya?ml$/i.test(entry.name))
          found.push(keyOf(URI.file(join(path, entry.name)).toString()));
      }
    }
    open = next;
  }
  return found;
}

async function listFolder(path: string) {
  try {
    return await readdir(path, { withFileTypes: true });
  } catch {
    return [];
  }
}
