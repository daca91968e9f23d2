import fs from 'node:fs';
import http from 'node:http';
import path from 'node:path';
import { ROOT } from '../support/lsp-client.ts';
import { readZip } from '../support/zip.ts';

const CODE = path.join(ROOT, '.vscode-host/node_modules/code-server/lib/vscode');
const MEMORY_FILES = path.join(ROOT, 'tests/workbench/memory-files');

/** A workbench that runs in the browser alone: what serves it sends files and does nothing else. */
export interface BrowserHost {
  /** The address of a file that is kept in memory, open in its folder. */
  readonly addressOf: (folder: string, file: string) => string;
  readonly stop: () => void;
}

/**
 * Serves the workbench of the installed host as VS Code for the Web is served: with no server behind it, and with
 * extensions that are loaded from an address. Both run in the browser's worker for extensions.
 * @param files texts by their paths, which the window has as `memory:` files
 */
export async function startBrowserHost(
  vsix: string,
  files: Readonly<Record<string, string>>,
): Promise<BrowserHost> {
  const packed = readZip(fs.readFileSync(vsix));
  const server = http.createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://127.0.0.1');
    const found = findFile(decodeURIComponent(pathname), packed, files);
    // The frame of the extensions' worker counts as another origin.
    const headers = { 'access-control-allow-origin': '*', 'content-type': typeOf(pathname) };
    response.writeHead(found === undefined ? 404 : 200, headers).end(found);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  const authority = `127.0.0.1:${typeof address === 'object' ? address?.port : ''}`;
  return {
    addressOf: (folder, file) => {
      const payload = JSON.stringify([['openFile', `memory:${folder}/${file}`]]);
      return `http://${authority}/?${new URLSearchParams({ folder: `memory:${folder}`, payload })}`;
    },
    stop: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}

function findFile(
  pathname: string,
  packed: ReadonlyMap<string, Buffer>,
  files: Readonly<Record<string, string>>,
): Buffer | string | undefined {
  const [, first, ...rest] = pathname.split('/');
  const inside = rest.join('/');
  switch (first) {
    case '':
      return documentOf();
    case 'fettle':
      return packed.get(`extension/${inside}`);
    case 'memory-files':
      return inside === 'files.json' ? JSON.stringify(files) : readIn(MEMORY_FILES, inside);
    case 'out':
      return inside === WORKBENCH
        ? withoutServer(readIn(path.join(CODE, 'out'), inside))
        : readIn(CODE, pathname);
    case 'extensions':
    case 'node_modules':
      return readIn(CODE, pathname);
    default:
      return undefined;
  }
}

const WORKBENCH = 'vs/code/browser/workbench/workbench.js';

/** What code-server's build has otherwise than VS Code for the Web: it always looks for the server that it came from. */
const CHANGES: readonly (readonly [RegExp, string])[] = [
  [/remoteAuthority:location\.host/, 'remoteAuthority:void 0'],
  [/(this\.userDataPath\)\.with\(\{scheme:\w+\.)vscodeRemote/, '$1vscodeUserData'],
];

function withoutServer(script: Buffer | undefined): string | undefined {
  return CHANGES.reduce<string | undefined>((text, [from, to]) => {
    const changed = text?.replace(from, to);
    if (changed === text) throw new Error(`the workbench has no longer what ${from} looks for`);
    return changed;
  }, script?.toString());
}

function readIn(folder: string, inside: string): Buffer | undefined {
  const file = path.join(folder, inside);
  if (!file.startsWith(`${folder}/`) || !fs.existsSync(file) || !fs.statSync(file).isFile()) return undefined;
  return fs.readFileSync(file);
}

const TYPES: Readonly<Record<string, string>> = {
  '.js': 'text/javascript',
  '.cjs': 'text/javascript',
  '.css': 'text/css',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.html': 'text/html',
  '.ttf': 'font/ttf',
  '.png': 'image/png',
  '.wasm': 'application/wasm',
};
const typeOf = (pathname: string) =>
  pathname === '/' ? 'text/html' : (TYPES[path.extname(pathname)] ?? 'text/plain');

/** The document that starts the workbench, with the extensions that it has from the beginning. */
function documentOf(): string {
  return `<!DOCTYPE html>
<html>
<head>
<meta charset="utf-8">
<meta id="vscode-workbench-web-configuration" data-settings="SETTINGS">
<link rel="stylesheet" href="/out/vs/code/browser/workbench/workbench.css">
</head>
<body></body>
<script>
  const element = document.getElementById('vscode-workbench-web-configuration');
  const at = (path) => ({ scheme: location.protocol.slice(0, -1), authority: location.host, path });
  element.dataset.settings = JSON.stringify({
    additionalBuiltinExtensions: ['/fettle', '/memory-files'].map(at),
    webviewEndpoint: location.origin + '/out/vs/workbench/contrib/webview/browser/pre',
    enableWorkspaceTrust: false,
    userDataPath: '/',
    isEnabledFileDownloads: true,
    isEnabledFileUploads: true,
    isEnabledCoderGettingStarted: false,
    productConfiguration: { extensionsGallery: {}, enableTelemetry: false },
  });
  globalThis._VSCODE_FILE_ROOT = location.origin + '/out/';
</script>
<script type="module" src="/out/nls.messages.js"></script>
<script type="module" src="/out/${WORKBENCH}"></script>
</html>
`;
}
