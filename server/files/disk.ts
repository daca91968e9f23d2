import { constants } from 'node:fs';
import { type FileHandle, open, readdir, realpath } from 'node:fs/promises';
import { URI } from 'vscode-uri';
import { say } from '../core/language/say.ts';
import { type FileId, type FileState, MOST_READ } from '../core/world.ts';
import type { FolderEntry } from './files.ts';
import { isInside, keyOf } from './keys.ts';

/**
 * Reads a file from disk if it lies inside one of the folders, symbolic links followed. Never throws.
 * Only plain files are read: a device or pipe could keep the reader waiting for ever.
 */
export async function readFromDisk(key: FileId, folders: readonly FileId[]): Promise<FileState> {
  const uri = URI.parse(key);
  if (uri.scheme !== 'file' || !folders.some((folder) => isInside(folder, key))) return { kind: 'outside' };
  try {
    const path = await realpath(uri.fsPath);
    const real = keyOf(URI.file(path).toString());
    const realFolders = await Promise.all(folders.map(realFolder));
    if (!realFolders.some((folder) => isInside(folder, real))) return { kind: 'outside' };
    return await readPlainFile(path); // the one that was looked at: a link may lead elsewhere by now
  } catch (failure) {
    return describeFailure(failure);
  }
}

async function realFolder(folder: FileId): Promise<FileId> {
  try {
    return keyOf(URI.file(await realpath(URI.parse(folder).fsPath)).toString());
  } catch {
    return folder;
  }
}

async function readPlainFile(path: string): Promise<FileState> {
  let handle: FileHandle | undefined;
  try {
    // Opening a pipe waits for its other end unless it is told not to; what was opened is looked at, not the name.
    handle = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const stat = await handle.stat();
    if (!stat.isFile()) return { kind: 'unreadable', why: say`it is not a plain file` };
    if (stat.size > MOST_READ) return { kind: 'too-large', bytes: stat.size, most: MOST_READ };
    return { kind: 'text', text: await handle.readFile('utf8') };
  } finally {
    await handle?.close();
  }
}

/** What the system's refusal to read a file says of it. */
export function describeFailure(failure: unknown): Extract<FileState, { kind: 'missing' | 'unreadable' }> {
  const code = (failure as { code?: string }).code;
  if (code === 'ENOENT' || code === 'ENOTDIR') return { kind: 'missing' };
  const reasons: Record<string, string> = {
    EACCES: say`reading it is not allowed`,
    EPERM: say`reading it is not allowed`,
    EISDIR: say`it is a folder`,
  };
  return { kind: 'unreadable', why: reasons[code ?? ''] ?? say`the system could not read it` };
}

/** The plain files and the folders in a folder of the disk; empty when it cannot be read. */
export async function listOnDisk(folder: FileId): Promise<readonly FolderEntry[]> {
  const uri = URI.parse(folder);
  if (uri.scheme !== 'file') return [];
  try {
    const entries = await readdir(uri.fsPath, { withFileTypes: true });
    return entries.flatMap((entry): FolderEntry[] => {
      if (entry.isDirectory()) return [{ name: entry.name, kind: 'folder' }];
      return entry.isFile() ? [{ name: entry.name, kind: 'file' }] : [];
    });
  } catch {
    return [];
  }
}
