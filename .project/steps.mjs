/**
 * What the commands of this folder share: where things are, how a step is announced and run, and the two set-up steps.
 * Plain JavaScript without dependencies, since it runs before anything is installed, on the system's own Node.
 */
import { spawn } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
export const CACHE = path.join(ROOT, '.cache');
export const VSIX = path.join(CACHE, 'fettle.vsix');
const MODULES = path.join(ROOT, 'node_modules');

/**
 * The environment for tools: the Node and the programs that the lock file pins come before the system's. npm finds its
 * global settings (registry, certificates) beside the Node that runs it; it is told to go on reading the system's.
 */
export const toolEnv = () => ({
  npm_config_globalconfig: path.join(path.dirname(path.dirname(process.execPath)), 'etc/npmrc'),
  ...process.env,
  PATH: `${path.join(MODULES, '.bin')}${path.delimiter}${process.env.PATH}`,
});

/** A failed command, with what it printed. */
export class StepError extends Error {
  constructor(message, output = '') {
    super(message);
    this.output = output;
  }
}

/** Announces a step on a line of its own. */
export function say(text) {
  console.log(`\n==> ${text}`);
}

/** A path as a person in the project folder would type it. */
export const relative = (file) => path.relative(ROOT, file) || '.';

/**
 * Runs a program in the project folder and resolves to its output, both streams together.
 * `show: true` also prints it as it comes; `to` names a file that gets the standard output alone. Rejects with StepError
 * unless it ends with a code in `accept`, and when it takes longer than `minutes`.
 */
export function run(
  program,
  args = [],
  { show = false, to, accept = [0], env = {}, cwd = ROOT, minutes = 10 } = {},
) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, {
      cwd,
      env: { ...toolEnv(), ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
      detached: true, // a group of its own, so that what it starts ends with it when time is up
    });
    const chunks = [];
    for (const stream of [child.stdout, child.stderr]) {
      stream.on('data', (data) => {
        chunks.push(data);
        if (show) process.stdout.write(data);
      });
    }
    if (to) child.stdout.pipe(fs.createWriteStream(to));
    const end = () => endGroup(child);
    running.add(end);
    const timer = setTimeout(end, minutes * 60_000);
    child.on('error', (error) => reject(new StepError(`${program} could not be started: ${error.message}`)));
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      running.delete(end);
      const output = Buffer.concat(chunks).toString();
      if (code !== null && accept.includes(code)) resolve(output);
      else {
        const how =
          code === null ? `was ended by ${signal} (limit: ${minutes} min)` : `ended with code ${code}`;
        reject(new StepError(`${[path.basename(program), ...args].join(' ')} ${how}`, output));
      }
    });
  });
}

const running = new Set();

/** Ends a process that `run` started, with all that it started itself. */
function endGroup(child) {
  try {
    process.kill(-child.pid, 'SIGKILL');
  } catch {} // it has ended by itself
}

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
  process.on(signal, () => {
    for (const end of running) end();
    process.exit(130);
  });
}

/** Installs exactly what the lock file says, unless it is there already. Resolves to what was done. */
export async function installPackages() {
  if (installedAsLocked()) return 'packages are installed already';
  await run('npm', ['ci', '--no-audit', '--no-fund'], { minutes: 8 });
  return 'packages installed (npm ci)';
}

/** True when every package of the lock file stands in node_modules in that version (optional ones may be missing). */
function installedAsLocked() {
  try {
    const wanted = readJson(path.join(ROOT, 'package-lock.json')).packages;
    const present = readJson(path.join(MODULES, '.package-lock.json')).packages;
    return Object.entries(wanted).every(
      ([where, { version, optional }]) =>
        where === '' || present[where]?.version === version || (optional && !present[where]),
    );
  } catch {
    return false; // no node_modules, or one broken off
  }
}

/** Builds the bundles and packs the extension (which builds first). Resolves to what was made. */
export async function buildAndPack() {
  fs.mkdirSync(CACHE, { recursive: true });
  // The pictures and pages that README names are packed with it, so its links stay as they are.
  const asPacked = ['--no-dependencies', '--allow-missing-repository', '--no-rewrite-relative-links'];
  await run('vsce', ['package', ...asPacked, '--out', VSIX]);
  const made = fs.readdirSync(path.join(ROOT, 'dist')).map((file) => `dist/${file}`);
  return [...made, relative(VSIX)].map((file) => `${file.padEnd(24)} ${kilobytes(file)} kB`).join('\n');
}

const kilobytes = (file) => String(Math.ceil(fs.statSync(path.join(ROOT, file)).size / 1000)).padStart(6);

export const readJson = (file) => JSON.parse(fs.readFileSync(file, 'utf8'));

/** The full path of a program on the PATH, or undefined. */
export function findProgram(name) {
  const folders = (process.env.PATH ?? '').split(path.delimiter).filter(Boolean);
  const names = process.platform === 'win32' ? [`${name}.cmd`, `${name}.exe`] : [name];
  return folders
    .flatMap((folder) => names.map((file) => path.join(folder, file)))
    .find((file) => fs.existsSync(file));
}

/** Installs Debian packages whose programs are missing: as root with apt-get, else says what to install. */
export async function ensurePrograms(needed) {
  const missing = Object.entries(needed).filter(([program]) => !findProgram(program));
  if (missing.length === 0) return;
  const packages = missing.flatMap(([, debian]) => debian);
  if (process.getuid?.() !== 0 || !findProgram('apt-get')) {
    throw new StepError(
      `${missing.map(([program]) => program).join(' and ')} not found: install ${packages.join(', ')} with your system's package manager, then run this again`,
    );
  }
  say(`Installing ${packages.join(', ')} with apt-get`);
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  await run('apt-get', ['update', '-qq'], { env, minutes: 5 });
  await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], { env, minutes: 8 });
}

export const CHROMIUM = { chromium: ['chromium', 'fonts-dejavu-core', 'fonts-liberation'] };
export const NGSPICE = { ngspice: ['ngspice'] };
export const NEOVIM = { nvim: ['neovim'] };
/** Emacs with its language client Eglot, which is in Emacs itself from version 29 on. */
export const EMACS = { emacs: ['emacs-nox', 'elpa-eglot'] };
export const COMPILER = { 'g++': ['g++'], make: ['make'], python3: ['python3'] };
