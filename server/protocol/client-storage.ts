import type { Connection } from 'vscode-languageserver';
import { URI } from 'vscode-uri';
import { say } from '../core/language/say.ts';
import type { FileId } from '../core/world.ts';
import type { Storage } from '../files/files.ts';
import { isInside } from '../files/keys.ts';
import { type FileAnswer, type FolderAnswer, LIST_FOLDER, READ_FILE } from './private.ts';
import type { ClientAbilities } from './session.ts';

/** Files are read from the disk where they are on one, and else through the client, if it can; else there are none. */
export function chooseStorage(
  connection: Connection,
  disk: Storage | undefined,
  { readsFiles }: ClientAbilities,
): Storage {
  const elsewhere = readsFiles ? storageOf(connection) : NOWHERE;
  const where = (file: FileId) => (disk && URI.parse(file).scheme === 'file' ? disk : elsewhere);
  return {
    read: (file, folders) => where(file).read(file, folders),
    list: (folder) => where(folder).list(folder),
  };
}

const NOWHERE: Storage = { read: async () => ({ kind: 'outside' }), list: async () => [] };

/** The files that the client reaches. It decides as well what may be read; a client that fails has nothing. */
function storageOf(connection: Connection): Storage {
  return {
    read: async (uri, folders) => {
      if (!folders.some((folder) => isInside(folder, uri))) return { kind: 'outside' };
      try {
        return await connection.sendRequest<FileAnswer>(READ_FILE, { uri });
      } catch {
        return { kind: 'unreadable', why: say`the editor could not read it` };
      }
    },
    list: async (uri) => {
      try {
        return await connection.sendRequest<FolderAnswer>(LIST_FOLDER, { uri });
      } catch {
        return [];
      }
    },
  };
}
