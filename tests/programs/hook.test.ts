import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { CLI, makeFolder, type Ran, runProgram, writeFile } from '../support/cli.ts';
import { ROOT } from '../support/lsp-client.ts';

const HOOK = path.join(ROOT, 'docs/version-control/pre-commit');
const SCRIPT = path.join(ROOT, 'docs/version-control/check.sh');
const MACHINE = 'machine: Toy\nparts:\n  a: { sheet: lamp.part.yaml }\n  b: { sheet: lamp.part.yaml }\n';
const WIRED = `${MACHINE}wiring:\n  - a.A -> b.A\n`;
const SHEET = 'part: Lamp\nclass: load\nsource: made up\nterminals: { wires: [A, B] }\n';

let [folder, bin] = ['', ''];
const run = (program: string, args: readonly string[], more: NodeJS.ProcessEnv = {}): Promise<Ran> =>
  runProgram(program, args, folder, {
    env: {
      PATH: `${bin}:${process.env.PATH}`,
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_AUTHOR_NAME: 'Nobody',
      GIT_AUTHOR_EMAIL: 'nobody@example.invalid',
      GIT_COMMITTER_NAME: 'Nobody',
      GIT_COMMITTER_EMAIL: 'nobody@example.invalid',
      ...more,
    },
  });
const commit = async (message: string): Promise<Ran> => {
  await run('git', ['add', '.']);
  return run('git', ['commit', '-qm', message]);
};

beforeAll(async () => {
  folder = makeFolder({ 'toy.machine.yaml': MACHINE, 'lamp.part.yaml': SHEET });
  bin = makeFolder({ fettle: `#!/bin/sh\nexec '${process.execPath}' '${CLI}' "$@"\n` });
  fs.chmodSync(path.join(bin, 'fettle'), 0o755);
  await run('git', ['init', '-q', '-b', 'main']);
  fs.copyFileSync(HOOK, path.join(folder, '.git/hooks/pre-commit'));
  fs.chmodSync(path.join(folder, '.git/hooks/pre-commit'), 0o755);
});
afterAll(() => {
  for (const made of [folder, bin]) fs.rmSync(made, { recursive: true });
});

test('the hook lets what is right pass and stops what is wrong, from the first commit on', async () => {
  writeFile(folder, 'toy.machine.yaml', MACHINE.replace('machine:', 'machin:'));
  expect(await commit('Wrong')).toMatchObject({
    code: 1,
    err: expect.stringContaining('[shape/unknown-key]'),
  });
  expect((await run('git', ['log'])).code).not.toBe(0);

  writeFile(folder, 'toy.machine.yaml', MACHINE);
  expect((await commit('A toy')).code).toBe(0);

  writeFile(folder, 'toy.machine.yaml', MACHINE.replace('a:', 'a!'));
  expect((await commit('Wrong')).code).toBe(1);
  writeFile(folder, 'toy.machine.yaml', MACHINE);

  writeFile(folder, 'notes.txt', 'no definition');
  expect((await commit('Notes')).code).toBe(0);
  expect((await run('git', ['log', '--format=%s'])).out).toBe('Notes\nA toy\n');
});

test('a sheet that changed has the machines checked that name it', async () => {
  writeFile(folder, 'toy.machine.yaml', WIRED);
  expect((await commit('Wired')).code).toBe(0);
  writeFile(folder, 'lamp.part.yaml', SHEET.replace('[A, B]', '[C, B]'));
  const { code, err } = await commit('Another terminal');
  expect(code).not.toBe(0);
  expect(err).toContain('toy.machine.yaml:6:');
  await run('git', ['checkout', '-q', 'HEAD', '--', 'lamp.part.yaml']);
});

test('the script for continuous integration leaves its reports and the exit code of the check', async () => {
  await run('git', ['branch', 'base']);
  writeFile(folder, 'toy.machine.yaml', `${WIRED}about: A toy\nrevison: 2\n`);
  const wrong = await run('sh', [SCRIPT], { BASE: 'base' });
  expect(wrong.code).toBe(1);
  expect(wrong.out).toMatch(/^::error file=toy\.machine\.yaml,line=8,/m);
  const report = (name: string) => fs.readFileSync(path.join(folder, 'reports', name), 'utf8');
  expect(report('findings.xml')).toContain('<failure');
  expect(JSON.parse(report('findings.sarif')).version).toBe('2.1.0');
  expect(report('consequences.md')).toContain('shape/unknown-key');
  writeFile(folder, 'toy.machine.yaml', `${WIRED}about: A toy\n`);
  expect((await run('sh', [SCRIPT], { BASE: 'base' })).code).toBe(0);
});
