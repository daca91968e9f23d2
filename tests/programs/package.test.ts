import { spawn } from 'node:child_process';
import { once } from 'node:events';
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeFolder, runProgram } from '../support/cli.ts';
import { ROOT } from '../support/lsp-client.ts';

/** Programs called node on the PATH and in FETTLE_NODES (paths with colons between), one of each major version. */
const NODES = await findNodes();

async function findNodes(): Promise<ReadonlyMap<string, string>> {
  const folders = (process.env.PATH ?? '').split(path.delimiter).map((folder) => path.join(folder, 'node'));
  const found = new Map<string, string>();
  for (const node of [process.execPath, ...(process.env.FETTLE_NODES ?? '').split(':'), ...folders]) {
    if (node === '' || !fs.existsSync(node)) continue;
    const { out } = await runProgram(node, ['--version'], ROOT);
    const major = /^v(\d+)\./.exec(out)?.[1];
    if (major !== undefined && !found.has(major)) found.set(major, fs.realpathSync(node));
  }
  return found;
}

const manifest = JSON.parse(fs.readFileSync(path.join(ROOT, 'package.json'), 'utf8'));
const npm = (args: readonly string[], cwd: string) =>
  runProgram(
    'npm',
    [...args, '--offline', '--ignore-scripts', '--no-audit', '--no-fund', '--no-update-notifier'],
    cwd,
  );

let folder = '';
beforeAll(async () => {
  folder = makeFolder({
    'package.json': '{ "private": true }\n',
    'toy.machine.yaml': 'machine: Toy\nparts:\n  psu: { sheet: generic/supply-24v }\n',
  });
  // What is in dist was built by the gate before this one.
  const packed = await npm(['pack', '--pack-destination', folder, ROOT], folder);
  if (packed.code !== 0) throw new Error(packed.err);
  const installed = await npm(['install', `./fettle-${manifest.version}.tgz`], folder);
  if (installed.code !== 0) throw new Error(installed.err);
}, 120_000);
afterAll(() => fs.rmSync(folder, { recursive: true }));

const program = (name: string) => path.join(folder, 'node_modules/.bin', name);

test('the package holds what runs, and nothing of its making', () => {
  const holds = (name: string) => fs.existsSync(path.join(folder, 'node_modules/fettle', name));
  for (const name of [
    'dist/cli.cjs',
    'dist/server.cjs',
    'server/parts/supply-24v.part.yaml',
    'README.md',
    'LICENSE',
    'dist/third-party.txt',
  ])
    expect(holds(name), name).toBe(true);
  for (const name of ['tests', '.project', 'server/core', 'docs/usability.md', 'node_modules'])
    expect(holds(name), name).toBe(false);
  const others = fs.readdirSync(path.join(folder, 'node_modules')).filter((name) => !name.startsWith('.'));
  expect(others).toEqual(['fettle']); // it needs no other package
});

test('the package runs no script when it is installed, and needs nothing else', () => {
  const { scripts, dependencies, optionalDependencies, peerDependencies } = JSON.parse(
    fs.readFileSync(path.join(folder, 'node_modules/fettle/package.json'), 'utf8'),
  );
  const run = Object.keys(scripts).filter((name) =>
    /^(?:(?:pre|post)?install|(?:pre|post)?prepare)$/.test(name),
  );
  expect([run, dependencies, optionalDependencies, peerDependencies]).toEqual([
    [],
    undefined,
    undefined,
    undefined,
  ]);
});

test('its programs are found by their names, as npm links them', async () => {
  expect(await runProgram(program('fettle'), ['--version'], folder)).toMatchObject({
    code: 0,
    out: `${manifest.version}\n`,
  });
  expect(await runProgram(program('fettle-language-server'), ['--version'], folder)).toMatchObject({
    code: 0,
    out: `${manifest.version}\n`,
  });
});

test('there is more than one version of node to try', () => {
  const least = Number(/\d+/.exec(manifest.engines.node)?.[0]);
  expect(NODES.size).toBeGreaterThan(0);
  for (const major of NODES.keys()) expect(Number(major)).toBeGreaterThanOrEqual(least);
});

describe.each([...NODES])('on node %s', (_, node) => {
  const run = (name: string, args: readonly string[], input = '') =>
    runProgram(node, [fs.realpathSync(program(name)), ...args], folder, { input });

  test('fettle checks, reports and lays drawings out', async () => {
    expect(await run('fettle', ['check', 'toy.machine.yaml', '--fail-on', 'never'])).toMatchObject({
      code: 0,
      err: expect.stringMatching(/^1 file checked/),
    });
    const page = await run('fettle', ['report', 'toy.machine.yaml']);
    expect(page.out).toMatch(/<svg[\s\S]*psu/);
    const copies = Array.from({ length: 90 }, () => 'toy.machine.yaml').map(
      (name, index) => `${index}-${name}`,
    );
    for (const name of copies)
      fs.copyFileSync(path.join(folder, 'toy.machine.yaml'), path.join(folder, name));
    const many = await run('fettle', ['check', '--fail-on', 'never', '*-toy.machine.yaml']);
    expect(many.err).toMatch(/^90 files checked/);
  });

  test('fettle-language-server answers and ends as it is told', { timeout: 30_000 }, async () => {
    const child = spawn(node, [fs.realpathSync(program('fettle-language-server'))], { cwd: folder });
    const send = (content: object) => {
      const text = JSON.stringify({ jsonrpc: '2.0', ...content });
      child.stdin.write(`Content-Length: ${text.length}\r\n\r\n${text}`);
    };
    const ended = new Promise((done) => child.on('close', done));
    // Read to the end: a pipe that nobody reads any more would be a fault of this test.
    let out = '';
    child.stdout.on('data', (data) => {
      out += String(data);
    });
    const answerWith = async (text: string) => {
      while (!out.includes(text)) await once(child.stdout, 'data');
    };
    send({ id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } });
    await answerWith('"capabilities"');
    send({ id: 2, method: 'shutdown' });
    await answerWith('"id":2');
    send({ method: 'exit' });
    expect(await ended).toBe(0);
  });
});
