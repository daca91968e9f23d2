/**
 * From a fresh clone to the main job, step by step: install, build, check and report the example in the terminal, write
 * its report page, and open it in an editor with the extension. `--no-open` ends after the report.
 */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import {
  buildAndPack,
  CACHE,
  COMPILER,
  ensurePrograms,
  findProgram,
  installPackages,
  ROOT,
  relative,
  run,
  StepError,
  say,
  toolEnv,
  VSIX,
} from './steps.mjs';

const EXAMPLE = 'examples/gantry-router/gantry-router.machine.yaml';
const OPTIONS = ['--no-open', '--browser'];
const options = process.argv.slice(2);

try {
  const unknown = options.filter((option) => !OPTIONS.includes(option));
  if (unknown.length > 0)
    throw new StepError(`unknown option ${unknown.join(', ')}; there are ${OPTIONS.join(' and ')}`);
  await showExample();
  if (!options.includes('--no-open')) await openExample();
} catch (error) {
  if (error instanceof StepError && error.output) console.error(error.output.trimEnd());
  console.error(`\nThis step failed: ${error instanceof StepError ? error.message : error.stack}`);
  process.exitCode = 1;
}

async function showExample() {
  say('Installing the packages that the lock file names');
  console.log(await installPackages());

  say('Building the extension, the language server and the command line, and packing the extension');
  console.log(await buildAndPack());

  say(`Checking the example: fettle check ${EXAMPLE}`);
  await run('node', ['dist/cli.cjs', 'check', EXAMPLE], { show: true, accept: [0, 1] }); // 1: there are findings

  const data = path.join(CACHE, 'report/gantry-router.json');
  const page = data.replace('.json', '.html');
  fs.mkdirSync(path.dirname(page), { recursive: true });
  say(`Computing the example: fettle report --format json ${EXAMPLE}`);
  await run('node', ['dist/cli.cjs', 'report', '--format', 'json', EXAMPLE], { to: data, accept: [0, 1] });
  printValues(JSON.parse(fs.readFileSync(data, 'utf8')).values);

  say(`Writing the wiring summary as one page: fettle report --format html ${EXAMPLE}`);
  await run('node', ['dist/cli.cjs', 'report', '--format', 'html', EXAMPLE], { to: page, accept: [0, 1] });
  console.log(`Report page: ${relative(page)}`);
}

/** The first values of the axes, as a taste of the report. */
function printValues(values) {
  const axes = Object.entries(values).filter(([address]) => address.startsWith('axes.'));
  const most = 24;
  for (const [address, { value, unit }] of axes.slice(0, most)) {
    const figure = typeof value === 'number' ? String(Number(value.toPrecision(6))) : String(value);
    console.log(`${address.padEnd(40)} ${figure} ${unit === '1' ? '' : (unit ?? '')}`.trimEnd());
  }
  const more = Object.keys(values).length - Math.min(most, axes.length);
  if (more > 0)
    console.log(`… and ${more} more values, each with its working, in .cache/report/gantry-router.json`);
}

/** Opens the example in VS Code where there is one and a display, else in a workbench served to the browser. */
async function openExample() {
  const display = process.platform !== 'linux' || process.env.DISPLAY || process.env.WAYLAND_DISPLAY;
  const editor = display && !options.includes('--browser') && (findProgram('code') ?? findProgram('codium'));
  if (editor) await openInEditor(editor);
  else await openInBrowser();
}

/** Uses folders of its own for settings and extensions, so that the user's editor stays as it is. */
async function openInEditor(editor) {
  const folders = [
    '--user-data-dir',
    path.join(CACHE, 'editor/user'),
    '--extensions-dir',
    path.join(CACHE, 'editor/extensions'),
  ];
  say(`Installing the extension for ${path.basename(editor)}, in folders of its own under .cache/editor`);
  await run(editor, [...folders, '--install-extension', VSIX, '--force']);
  say(`Opening ${EXAMPLE}`);
  await run(editor, [
    ...folders,
    '--disable-workspace-trust',
    '--new-window',
    path.join(ROOT, 'examples'),
    path.join(ROOT, EXAMPLE),
  ]);
  console.log('In the editor: press the button at the top right, "Show wiring summary".');
}

async function openInBrowser() {
  say(
    'No VS Code with a display here: installing a workbench for the browser into .vscode-host (once, half a minute)',
  );
  await ensurePrograms(COMPILER);
  await run('bash', ['tests/workbench/install-host.sh', '.vscode-host'], { show: true, minutes: 15 });
  say('Opening the example in the workbench');
  const args = ['tests/workbench/open.ts', VSIX, path.join(ROOT, 'examples'), path.join(ROOT, EXAMPLE)];
  const workbench = spawn('node', args, {
    cwd: ROOT,
    env: toolEnv(),
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.removeAllListeners(signal); // wait until the workbench has ended what it started
    process.on(signal, () => workbench.kill('SIGTERM'));
  }
  const code = await new Promise((resolve) => workbench.on('exit', resolve));
  if (code !== 0) throw new StepError('the workbench ended unexpectedly: see .cache/workbench/server.log');
}
