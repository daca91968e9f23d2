import type { FileId, FileState } from '../../core/world.ts';
import { isInside, relativePath } from '../../files/keys.ts';
import { readBlob, topFolder } from '../git.ts';
import { keyOfPath } from '../paths.ts';

/** As many as are read from disk. */
const MOST_BYTES = 1_000_000;

/** Reads files as they stood in a commit of the repository of this folder. */
export async function readerOf(commit: string): Promise<(key: FileId) => Promise<FileState>> {
  const top = keyOfPath(await topFolder());
  return async (key) => {
    if (!isInside(top, key)) return { kind: 'outside' };
    const path = relativePath(`${top}/x`, key);
    const text = path === undefined ? undefined : await readBlob(commit, path);
    if (text === undefined) return { kind: 'missing' };
    const bytes = Buffer.byteLength(text);
    return bytes > MOST_BYTES ? { kind: 'too-large', bytes, most: MOST_BYTES } : { kind: 'text', text };
  };
}
