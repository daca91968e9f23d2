// Builds everything that ships into dist/: the extension, the language server, the command line, the wiring summary
// page and the worker that lays drawings out. Run by node; `--watch` builds again on every change, and names, such as
// `page`, build only the bundles of that name.
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, context } from 'esbuild';
import { listNotices } from './notices.mjs';

const root = new URL('..', import.meta.url).pathname;
const watching = process.argv.includes('--watch');
const names = process.argv.slice(2).filter((argument) => !argument.startsWith('--'));
const shared = {
  absWorkingDir: root,
  bundle: true,
  minify: !watching,
  metafile: true,
  logLevel: 'warning',
  legalComments: 'none',
};
// The extension host of VS Code 1.100 runs Node 20; ES modules do not load in every host, so node bundles are CommonJS.
const node = { ...shared, platform: 'node', format: 'cjs', target: 'node20' };
const browser = { ...shared, platform: 'browser', format: 'iife', target: 'chrome124' };

/** The sheets that ship, for the worker, which has no disk to read them from. */
function readSheets() {
  const folder = join(root, 'server/parts');
  const files = readdirSync(folder).filter((file) => file.endsWith('.part.yaml'));
  return Object.fromEntries(
    files.map((file) => [file.replace('.part.yaml', ''), readFileSync(join(folder, file), 'utf8')]),
  );
}

/** Both are programs of the package. */
const SHEBANG = { js: '#!/usr/bin/env node' };

const bundles = [
  { ...node, entryPoints: ['client/extension.ts'], outfile: 'dist/extension.cjs', external: ['vscode'] },
  {
    ...browser,
    format: 'cjs',
    entryPoints: ['client/extension-web.ts'],
    outfile: 'dist/extension-web.js',
    external: ['vscode'],
  },
  { ...node, entryPoints: ['server/node.ts'], outfile: 'dist/server.cjs', banner: SHEBANG },
  { ...node, entryPoints: ['server/cli.ts'], outfile: 'dist/cli.cjs', banner: SHEBANG },
  {
    ...browser,
    entryPoints: ['server/worker.ts'],
    outfile: 'dist/server-worker.js',
    define: { SHIPPED_SHEETS: JSON.stringify(readSheets()) },
  },
  { ...browser, entryPoints: ['client/page/main.ts'], outfile: 'dist/page.js' },
  { ...browser, entryPoints: ['client/page/page.css'], outfile: 'dist/page.css' },
];

// The layout library's own worker ships as it is: a script by itself, that the page fetches and the command line loads.
const LAYOUT_WORKER = 'node_modules/elkjs/lib/elk-worker.min.js';

function copyLayoutWorker() {
  mkdirSync(join(root, 'dist'), { recursive: true });
  copyFileSync(join(root, LAYOUT_WORKER), join(root, 'dist/elk-worker.js'));
}

/** The bundles whose sources exist; the others are named, so that a missing one is never silent. */
function listBundles() {
  return bundles
    .filter(({ outfile }) => names.length === 0 || names.some((name) => outfile.startsWith(`dist/${name}.`)))
    .map((bundle) => ({ ...bundle, entryPoints: bundle.entryPoints.map((entry) => join(root, entry)) }))
    .filter(({ entryPoints: [entry], outfile }) => {
      if (existsSync(entry)) return true;
      console.log(`${outfile}: left out, since ${entry.slice(root.length)} does not exist.`);
      return false;
    });
}

/** A shebang written in the source is kept by esbuild; a second one would be a syntax error. */
function withoutDoubleShebang(bundle) {
  const { banner, ...rest } = bundle;
  return banner && readFileSync(bundle.entryPoints[0], 'utf8').startsWith('#!') ? rest : bundle;
}

function printSizes(outfiles) {
  const kilobytes = (bytes) => `${(bytes / 1000).toFixed(1)} kB`.padStart(11);
  console.log(`${'file'.padEnd(22)}${'size'.padStart(11)}${'gzip'.padStart(11)}`);
  for (const outfile of outfiles) {
    const bytes = readFileSync(join(root, outfile));
    console.log(`${outfile.padEnd(22)}${kilobytes(bytes.length)}${kilobytes(gzipSync(bytes).length)}`);
  }
}

async function bundleOnce(list) {
  copyLayoutWorker();
  const results = await Promise.all(list.map((bundle) => build(bundle)));
  if (names.length > 0) return printSizes(list.map(({ outfile }) => outfile));
  const inputs = results.flatMap(({ metafile }) => Object.keys(metafile.inputs)).concat(LAYOUT_WORKER);
  writeFileSync(join(root, 'dist/third-party.txt'), listNotices(root, inputs));
  for (const program of ['dist/cli.cjs', 'dist/server.cjs'])
    if (existsSync(join(root, program))) chmodSync(join(root, program), 0o755);
  printSizes([...list.map(({ outfile }) => outfile), 'dist/elk-worker.js']);
}

/** The two lines that the editor's build task waits for are printed around every build. */
const announce = {
  name: 'announce',
  setup(hook) {
    hook.onStart(() => console.log('bundle: started'));
    hook.onEnd(({ errors }) => console.log(`bundle: finished, ${errors.length} errors`));
  },
};

const list = listBundles().map(withoutDoubleShebang);
if (watching) {
  copyLayoutWorker();
  for (const bundle of list) {
    const watch = await context({ ...bundle, sourcemap: 'linked', plugins: [announce] });
    await watch.watch();
  }
} else {
  await bundleOnce(list).catch((failure) => {
    if (!failure.errors) throw failure; // What the bundler found wrong, it has printed itself.
    process.exitCode = 1;
  });
}
