import { type FileId, type FileState, MOST_READ } from '../../core/world.ts';
import { isInside, relativePath } from '../../files/keys.ts';
import { readBlob, topFolder } from '../git.ts';
import { keyOfPath } from '../paths.ts';

/** Reads files as they stood in a commit of the repository of this folder. */
export async function readerOf(commit: string): Promise<(key: FileId) => Promise<FileState>> {
  const top = keyOfPath(await topFolder());
  return async (key) => {
    if (!isInside(top, key)) return { kind: 'outside' };
    const path = relativePath(`${top}/x`, key);
    const text = path === undefined ? undefined : await readBlob(commit, path);
    if (text === undefined) return { kind: 'missing' };
    const bytes = Buffer.byteLength(text);
    return bytes > MOST_READ ? { kind: 'too-large', bytes, most: MOST_READ } : { kind: 'text', text };
  };
}
