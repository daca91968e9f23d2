import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { bundledLibrary } from './files/bundled.ts';
import { startServer } from './protocol/server.ts';

// Browsers have no name for «after what is waiting already»; a timer of no time does the same.
globalThis.setImmediate ??= ((run: () => void) => setTimeout(run, 0)) as unknown as typeof setImmediate;

// The worker's own scope carries the messages. It has no disk: all files are read through the client.
const scope = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];
const connection = createConnection(new BrowserMessageReader(scope), new BrowserMessageWriter(scope));
startServer(connection, {
  library: bundledLibrary(),
  pageOf: () => undefined,
  readWords: () => undefined, // the client brings them
});
