import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { listDefinitionsOnDisk } from './files/find-definitions.ts';
import { openLibrary } from './files/library.ts';
import { findPage } from './files/pages.ts';
import { libraryFolder } from './files/shipped.ts';
import { startServer } from './protocol/server.ts';

// The transport (`--stdio`, `--node-ipc`, `--socket=`) is read from the command line by the connection itself.
const connection = createConnection(ProposedFeatures.all);
startServer(connection, {
  library: openLibrary(libraryFolder()),
  listDefinitions: listDefinitionsOnDisk,
  pageOf: findPage,
});
