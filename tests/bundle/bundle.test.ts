import fs from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';
import { listZip, readZip } from '../support/zip.ts';

/** Budgets in kB (1000 bytes), plain and compressed. The layout engine is a file of its own, loaded when a drawing is. */
const BUDGETS: Readonly<Record<string, readonly [plain: number, compressed: number]>> = {
  'extension.cjs': [600, 180],
  'extension-web.js': [600, 180],
  'server.cjs': [1200, 360],
  'server-worker.js': [1200, 360],
  'cli.cjs': [1200, 360],
  'page.js': [300, 100],
  'page.css': [60, 15],
  'elk-worker.js': [1700, 500],
};
const MOST_FOR_PACKAGE = 3000;

/** Ways out of the machine, and ways to run a text as a program. */
const FORBIDDEN = [
  /\bhttps?\.(?:request|get)\(/,
  /require\("(?:node:)?(?:https?|http2|dgram|tls|dns)"\)/,
  /\bfetch\(\s*["'`](?!data:|blob:)/,
  /\bnew XMLHttpRequest\b/,
  /\bnew (?:WebSocket|EventSource)\b/,
  /\bsendBeacon\(/,
  /(?<![.\w$])eval\(/,
  /\bnew Function\(/,
];

/**
 * What each bundle may ask its host for. `net` is the protocol's library's: an editor may speak with the server over a
 * pipe or a socket of this machine.
 */
const BUILT_IN: Readonly<Record<string, readonly string[]>> = {
  'extension.cjs': ['child_process', 'crypto', 'fs', 'net', 'os', 'path', 'readline', 'util', 'vscode'],
  'extension-web.js': ['vscode'],
  'server.cjs': [
    ...[
      'buffer',
      'child_process',
      'crypto',
      'fs',
      'fs/promises',
      'net',
      'os',
      'path',
      'perf_hooks', // tells when memory was collected
      'process',
      'url',
      'util',
      'v8',
    ],
  ],
  'server-worker.js': [],
  'cli.cjs': [
    ...[
      'buffer',
      'child_process',
      'fs',
      'fs/promises',
      'module',
      'os',
      'path',
      'process',
      'readline',
      'url',
      'util',
    ],
    'worker_threads',
  ],
  'page.js': [],
  'elk-worker.js': [],
};

/** Addresses that may stand in a bundle, since nothing ever fetches them: names of standards and of the layout engine's XML. */
const KNOWN_HOSTS = ['www.w3.org', 'json-schema.org', 'docs.oasis-open.org', 'www.eclipse.org'];

const SCRIPTS = Object.keys(BUDGETS).filter((name) => /\.c?js$/.test(name));
const read = (name: string) => fs.readFileSync(path.join(ROOT, 'dist', name));

describe('bundles', () => {
  it('are the ones that have a budget, and no more', () => {
    const made = fs.readdirSync(path.join(ROOT, 'dist')).filter((name) => /\.(?:c?js|css)$/.test(name));
    expect(made.toSorted()).toEqual(Object.keys(BUDGETS).toSorted());
  });

  it.each(Object.entries(BUDGETS))('%s keeps its budget', (name, [plain, compressed]) => {
    const bytes = read(name);
    expect(bytes.length / 1000).toBeGreaterThan(1);
    expect(bytes.length / 1000).toBeLessThan(plain);
    expect(gzipSync(bytes).length / 1000).toBeLessThan(compressed);
  });

  it.each(SCRIPTS)('%s has no way to the network and runs no text as a program', (name) => {
    const text = read(name).toString('utf8');
    const found = FORBIDDEN.flatMap((pattern) => {
      const match = pattern.exec(text);
      return match ? [text.slice(Math.max(0, match.index - 60), match.index + 60)] : [];
    });
    expect(found).toEqual([]);
  });

  it.each(SCRIPTS)('%s asks its host for nothing but what it is known to need', (name) => {
    const text = read(name).toString('utf8');
    const asked = [...text.matchAll(/\b(?:require|import)\(\s*["'`](?:node:)?([^"'`]+)["'`]/g)];
    expect(new Set(asked.map(([, module]) => module))).toEqual(new Set(BUILT_IN[name]));
    // A name that is put together when it runs could be anything.
    expect(text.match(/\bimport\(\s*[^"'`\s]/g)).toBeNull();
  });

  it.each(['extension.cjs', 'server.cjs'])('%s speaks with this machine alone', (name) => {
    const text = read(name).toString('utf8');
    const hosts = [...text.matchAll(/\b(?:createConnection\)?|listen)\([\w$]+,\s*"([^"]+)"/g)];
    expect(new Set(hosts.map(([, host]) => host))).toEqual(new Set(['127.0.0.1']));
  });

  it('would see a way to the network', () => {
    const wrong = [
      'n.get;http.request(o)',
      'require("https")',
      'fetch("https://example.org")',
      'eval("1")',
      'new Function("a")',
    ];
    for (const text of wrong)
      expect(
        FORBIDDEN.some((pattern) => pattern.test(text)),
        text,
      ).toBe(true);
  });

  it.each(SCRIPTS)('%s names no address of the network', (name) => {
    const hosts = [
      ...read(name)
        .toString('utf8')
        .matchAll(/\b(?:https?|wss?):\/\/([\w.-]+)/g),
    ].map(([, host]) => host);
    expect([...new Set(hosts)].filter((host) => !KNOWN_HOSTS.includes(host ?? ''))).toEqual([]);
  });

  it.each(Object.keys(BUDGETS))('%s names no folder of the machine that built it', (name) => {
    expect(read(name).includes(ROOT)).toBe(false);
  });
});

/** What package managers run by themselves, and what editors run when an extension comes or goes. */
const isRunOnInstall = (script: string): boolean =>
  /^(?:pre|post)?install$|^(?:pre|post)?prepare$|^vscode:(?:un)?install$|^dependencies$/.test(script);

describe('the packed extension', () => {
  const file = path.join(ROOT, '.cache/fettle.vsix');
  const names = listZip(fs.readFileSync(file)).map((name) => name.replace(/^extension\//, ''));

  it('runs no script when it is installed', () => {
    const packed = readZip(fs.readFileSync(file)).get('extension/package.json')?.toString('utf8') ?? '';
    const { scripts, dependencies } = JSON.parse(packed);
    expect(Object.keys(scripts).filter(isRunOnInstall)).toEqual([]);
    expect(dependencies).toBeUndefined();
  });

  it('keeps its budget', () => {
    expect(fs.statSync(file).size / 1000).toBeLessThan(MOST_FOR_PACKAGE);
  });

  it('has what it needs', () => {
    const manifest = JSON.parse(fs.readFileSync(path.join(ROOT, 'package.json'), 'utf8'));
    const needed = [
      'package.json',
      manifest.main,
      manifest.icon,
      'readme.md',
      ...SCRIPTS.map((name) => `dist/${name}`),
    ];
    const present = names.map((name) => name.toLowerCase());
    for (const name of needed) expect(present).toContain(path.posix.normalize(name).toLowerCase());
    expect(names.filter((name) => /^server\/parts\/.*\.part\.yaml$/.test(name)).length).toBeGreaterThan(11);
  });

  it('has nothing that only its makers need', () => {
    const stray = names.filter((name) =>
      /^(?:tests|node_modules|\.|docs\/(?!findings\/|images\/)|examples\/(?![\w-]+\/(?:[\w-]+\.machine\.yaml$|README\.md$|sheets\/)))|(?<!\.d)\.ts$|\.map$/.test(
        name,
      ),
    );
    expect(stray).toEqual([]);
  });
});
