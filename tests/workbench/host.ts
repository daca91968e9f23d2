import { execFileSync, spawn } from 'node:child_process';
import fs from 'node:fs';
import net from 'node:net';
import path from 'node:path';

const ROOT = path.resolve(import.meta.dirname, '../..');
const HOST = path.join(ROOT, '.vscode-host');
const NODE = path.join(HOST, 'bin/node');
const ENTRY = path.join(HOST, 'node_modules/code-server/out/node/entry.js');

/** Settings that keep the workbench quiet: no welcome pages, no telemetry, no updates, and saving only when told to. */
const QUIET = {
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
  'workbench.enableExperiments': false,
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.reduceMotion': 'on',
  'chat.disableAIFeatures': true,
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'git.enabled': false,
  'files.autoSave': 'off',
  'extensions.autoUpdate': false,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
};

export interface Host {
  readonly url: string;
  readonly port: number;
  readonly dir: string;
  /** Changes settings: a running window takes them over at once, a colour theme when it is opened anew. */
  readonly setSettings: (settings: Readonly<Record<string, unknown>>) => void;
  /** Ends the server and waits until it has gone. */
  readonly stop: () => Promise<void>;
}

export interface HostOptions {
  /** A folder for settings, extensions and logs; emptied first. */
  readonly dir: string;
  readonly vsix: string;
  /** Packed extensions that are there besides. */
  readonly others?: readonly string[];
  /** True asks nobody whether a folder can be trusted; false opens every folder in restricted mode. */
  readonly trusted?: boolean;
  readonly settings?: Readonly<Record<string, unknown>>;
  /** The language of all windows: what extensions say is in it, the workbench's own words stay English. */
  readonly language?: string;
}

/** Installs the extension into empty folders and starts the workbench server on a free port of this machine only. */
export async function startHost({
  dir,
  vsix,
  others = [],
  trusted = true,
  settings = {},
  language,
}: HostOptions): Promise<Host> {
  fs.rmSync(dir, { recursive: true, force: true });
  fs.mkdirSync(path.join(dir, 'user/User'), { recursive: true });
  const trust = trusted ? { 'security.workspace.trust.enabled': false } : {};
  const setSettings = (more: Readonly<Record<string, unknown>>): void => {
    const all = { ...QUIET, ...trust, ...settings, ...more };
    fs.writeFileSync(path.join(dir, 'user/User/settings.json'), JSON.stringify(all, null, 2));
  };
  setSettings({});
  if (language) writeLanguagePack(path.join(dir, 'user'), language);
  fs.writeFileSync(path.join(dir, 'config.yaml'), 'auth: none\n'); // without --config, one in the home folder is written and read
  const folders = ['--config', path.join(dir, 'config.yaml'), '--user-data-dir', path.join(dir, 'user')];
  const common = [...folders, '--extensions-dir', path.join(dir, 'extensions')];
  const env: NodeJS.ProcessEnv = { ...process.env, EXTENSIONS_GALLERY: '{}' }; // no calls to an extension gallery
  delete env.VSCODE_IPC_HOOK_CLI; // set in a terminal inside a workbench: the command would go to that window
  const installs = [vsix, ...others].flatMap((file) => ['--install-extension', file]);
  execFileSync(NODE, [ENTRY, ...common, ...installs, '--force'], { env, stdio: 'pipe' });

  const port = await findFreePort();
  const url = `http://127.0.0.1:${port}`;
  const log = fs.openSync(path.join(dir, 'server.log'), 'w');
  const quiet = [
    '--disable-telemetry',
    '--disable-update-check',
    '--disable-getting-started-override',
    '--ignore-last-opened',
  ];
  const address = ['--auth', 'none', '--bind-addr', `127.0.0.1:${port}`];
  const server = spawn(
    NODE,
    [
      ...[ENTRY, ...common, ...address, ...quiet],
      ...(trusted ? ['--disable-workspace-trust'] : []),
      ...(language ? ['--locale', language] : []),
    ],
    { env, stdio: ['ignore', log, log] },
  );
  const stop = () =>
    new Promise<void>((done) => {
      if (server.exitCode !== null || server.signalCode !== null) return done();
      server.once('exit', () => done());
      server.kill('SIGTERM');
    });
  for (let tries = 0; !(await answers(`${url}/healthz`)); tries++) {
    if (tries > 300 || server.exitCode !== null) {
      await stop();
      throw new Error(`The workbench server did not start; its log ends:\n${endOfLog(dir)}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  return { url, port, dir, setSettings, stop };
}

/** Writes down a language as if a pack for it were installed, one that translates nothing. */
function writeLanguagePack(user: string, language: string): void {
  const words = path.join(user, 'no-words.json');
  fs.writeFileSync(words, JSON.stringify({ contents: {} }));
  const extensions = [{ extensionIdentifier: { id: `tests.${language}` }, version: '1.0.0' }];
  const pack = { hash: 'none', label: language, extensions, translations: { vscode: words } };
  fs.writeFileSync(path.join(user, 'languagepacks.json'), JSON.stringify({ [language]: pack }));
}

/** The address of a folder in the workbench, with a file open at once; both are absolute paths. */
export function addressOf(host: Host, folder: string, file?: string): string {
  const query = new URLSearchParams({ folder });
  if (file) {
    // The authority must be the very host and port of the page's own address.
    query.set('payload', JSON.stringify([['openFile', `vscode-remote://127.0.0.1:${host.port}${file}`]]));
  }
  return `${host.url}/?${query}`;
}

const answers = (url: string) =>
  fetch(url).then(
    (response) => response.ok,
    () => false,
  );

function endOfLog(dir: string): string {
  return fs.readFileSync(path.join(dir, 'server.log'), 'utf8').slice(-2000);
}

function findFreePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = net.createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() =>
        address && typeof address === 'object' ? resolve(address.port) : reject(new Error('no port')),
      );
    });
  });
}
