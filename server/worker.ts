import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import type { FileId, FileState } from './core/world.ts';
import { bundledLibrary } from './files/bundled.ts';
import { LIST_DEFINITIONS, READ_FILE } from './protocol/private.ts';
import { startServer } from './protocol/server.ts';

// Browsers have no name for «after what is waiting already»; a timer of no time does the same.
globalThis.setImmediate ??= ((run: () => void) => setTimeout(run, 0)) as unknown as typeof setImmediate;

// The worker's own scope carries the messages.
const scope = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
const connection = createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope));

/** A worker has no files: the client reads what lies in the folders that it has opened. */
async function read(file: FileId): Promise<FileState> {
  try {
    return await connection.sendRequest<FileState>(READ_FILE, { uri: file });
  } catch {
    return { kind: 'missing' }; // a client that cannot read files has only open texts
  }
}

async function listDefinitions(folder: FileId): Promise<readonly FileId[]> {
  try {
    return await connection.sendRequest<FileId[]>(LIST_DEFINITIONS, { folder });
  } catch {
    return [];
  }
}

startServer(connection, { library: bundledLibrary(), read, listDefinitions, pageOf: () => undefined });
