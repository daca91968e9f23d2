import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { listOnDisk, readFromDisk } from './files/disk.ts';
import { readWords } from './files/language.ts';
import { openLibrary } from './files/library.ts';
import { findPage } from './files/pages.ts';
import { libraryFolder } from './files/shipped.ts';
import { boundHeap } from './heap.ts';
import { startServer } from './protocol/server.ts';
import { readTransport } from './transport.ts';

const transport = readTransport(process.argv.slice(2), process.stdin.isTTY);
if (transport.kind === 'say') {
  process.stdout.write(transport.text);
  process.exitCode = transport.code;
} else {
  boundHeap();
  // The connection reads its transport from the command line by itself.
  process.argv = [...process.argv.slice(0, 2), ...transport.args];
  startServer(createConnection(ProposedFeatures.all), {
    library: openLibrary(libraryFolder()),
    disk: { read: readFromDisk, list: listOnDisk },
    pageOf: findPage,
    readWords,
  });
}
