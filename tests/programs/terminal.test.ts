import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CLI, makeFolder, runProgram } from '../support/cli.ts';

/*
 * `script` of util-linux runs a program on a terminal of its own; what is shown there comes out together, results and
 * talk. Systems without it, or with another one, are passed over.
 */
let folder = '';
let hasScript = false;
beforeAll(async () => {
  folder = makeFolder({ 'toy.machine.yaml': 'machine: Toy\nrevison: 1\n' });
  for (let index = 0; index < 300; index++)
    fs.copyFileSync(path.join(folder, 'toy.machine.yaml'), path.join(folder, `many-${index}.machine.yaml`));
  const { code } = await runProgram('script', ['--version'], folder).catch(() => ({ code: 1 }));
  hasScript = code === 0;
});
afterAll(() => fs.rmSync(folder, { recursive: true }));

const onTerminal = (args: string, env: NodeJS.ProcessEnv = {}, input = '') =>
  runProgram('script', ['-qefc', `'${process.execPath}' '${CLI}' ${args}`, '/dev/null'], folder, {
    env: { TERM: 'xterm', NO_COLOR: '', ...env },
    input,
  });

describe('on a terminal', () => {
  test('findings have colours, unless NO_COLOR is set or the terminal has none', async ({ skip }) => {
    if (!hasScript) skip();
    expect((await onTerminal('check toy.machine.yaml')).out).toContain('\u001b[31merror:\u001b[0m');
    for (const env of [{ NO_COLOR: '1' }, { TERM: 'dumb' }])
      expect((await onTerminal('check toy.machine.yaml', env)).out).not.toContain('\u001b[');
  });

  test('long work shows how far it has come, and takes the line away', async ({ skip }) => {
    if (!hasScript) skip();
    const { out } = await onTerminal("check 'many-*.machine.yaml' --format json > /dev/null");
    expect(out).toMatch(/\r\d+ of 300 files/);
    expect(out).toContain('\r\u001b[K300 files checked');
    expect((await onTerminal('check toy.machine.yaml')).out).not.toMatch(/ of 1 files/);
  });

  test('what no option says is asked', async ({ skip }) => {
    if (!hasScript) skip();
    const { out } = await onTerminal('new machine asked.machine.yaml', {}, 'Asked\n\nXY\n\nno\n');
    expect(out).toMatch(/What is the machine called[\s\S]*Axes \[XYZ\][\s\S]*Wrote asked\.machine\.yaml/);
    expect(fs.readFileSync(path.join(folder, 'asked.machine.yaml'), 'utf8')).toMatch(
      /machine: Asked\n[\s\S]*X:[\s\S]*Y:/,
    );
  });
});

test('whoever reads only the start of a result does no harm', async () => {
  const command = `'${process.execPath}' '${CLI}' check 'many-*.machine.yaml' | head -n 1`;
  expect(await runProgram('sh', ['-c', command], folder)).toMatchObject({
    code: 0,
    err: expect.not.stringMatching(/EPIPE|Error/),
  });
});
