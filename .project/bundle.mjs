// Builds everything that ships into dist/: the extension, the language server, the command line, the wiring summary
// page and the worker that lays drawings out. Run by node; `--watch` builds again on every change.
import { chmodSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, context } from 'esbuild';
import { listNotices } from './notices.mjs';

const root = new URL('..', import.meta.url).pathname;
const watching = process.argv.includes('--watch');
const shared = {
  absWorkingDir: root,
  bundle: true,
  minify: !watching,
  metafile: true,
  logLevel: 'warning',
  legalComments: 'none',
};
// The extension host of VS Code 1.100 runs Node 20; ES modules do not load in every host, so node bundles are CommonJS.
const node = { ...shared, platform: 'node', format: 'cjs', target: 'node20', keepNames: true };
const browser = { ...shared, platform: 'browser', format: 'iife', target: 'chrome124' };

const bundles = [
  { ...node, entryPoints: ['client/extension.ts'], outfile: 'dist/extension.cjs', external: ['vscode'] },
  { ...node, entryPoints: ['server/node.ts'], outfile: 'dist/server.cjs' },
  { ...node, entryPoints: ['server/cli.ts'], outfile: 'dist/cli.cjs', banner: { js: '#!/usr/bin/env node' } },
  { ...browser, entryPoints: ['client/page/main.ts'], outfile: 'dist/page.js' },
  { ...browser, entryPoints: ['client/page/page.css'], outfile: 'dist/page.css' },
  // The layout library's own worker, copied as it is: the page and the command line load it by itself.
  {
    ...browser,
    entryPoints: ['elkjs/lib/elk-worker.min.js'],
    outfile: 'dist/elk-worker.js',
    bundle: false,
    minify: false,
  },
];

/** The bundles whose sources exist; the others are named, so that a missing one is never silent. */
function listBundles() {
  return bundles
    .map((bundle) => ({ ...bundle, entryPoints: bundle.entryPoints.map(resolveEntry) }))
    .filter(({ entryPoints: [entry], outfile }) => {
      if (existsSync(entry)) return true;
      console.log(`${outfile}: left out, since ${entry.slice(root.length)} does not exist.`);
      return false;
    });
}

function resolveEntry(entry) {
  const own = join(root, entry);
  return existsSync(own) || !entry.startsWith('elkjs/') ? own : join(root, 'node_modules', entry);
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
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  mkdirSync(join(root, 'dist'), { recursive: true });
  const results = await Promise.all(list.map((bundle) => build(bundle)));
  const inputs = results.flatMap(({ metafile }) => Object.keys(metafile.inputs));
  writeFileSync(join(root, 'dist/third-party.txt'), listNotices(root, inputs));
  if (existsSync(join(root, 'dist/cli.cjs'))) chmodSync(join(root, 'dist/cli.cjs'), 0o755);
  printSizes(list.map(({ outfile }) => outfile));
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
  for (const bundle of list) {
    const watch = await context({ ...bundle, sourcemap: 'linked', plugins: [announce] });
    await watch.watch();
  }
} else {
  await bundleOnce(list);
}
