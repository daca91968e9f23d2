import fs from 'node:fs';
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../server/command/commands.ts';
import { makeFolder, runHere, runProgram } from '../support/cli.ts';
import { ROOT } from '../support/lsp-client.ts';

const script = async (shell: string) => (await runHere(['completion', shell])).out;

/** What bash offers for words, the last of which is being typed. */
async function offers(...words: readonly string[]): Promise<string[]> {
  const given = words.map((word) => `'${word}'`).join(' ');
  const ask = `${await script('bash')}
COMP_WORDS=(fettle ${given}); COMP_CWORD=${words.length}; _fettle; printf '%s\\n' "\${COMPREPLY[@]}"`;
  const { code, out, err } = await runProgram('bash', ['--norc', '-c', ask], ROOT);
  expect([code, err]).toEqual([0, '']);
  return out.split('\n').filter((line) => line !== '');
}

describe('bash', () => {
  test('completes commands, options, their words and files', async () => {
    expect(await offers('')).toEqual(expect.arrayContaining([...COMMANDS.keys(), 'help']));
    expect(await offers('ch')).toEqual(['check']);
    expect(await offers('check', '--fa')).toEqual(['--fail-on']);
    expect(await offers('check', '--format', 's')).toEqual(['sarif']);
    expect(await offers('help', 'expl')).toEqual(['explain']);
    expect(await offers('report', 'READ')).toEqual(['README.md']);
    expect(await offers('report', '-o', 'READ')).toEqual(['README.md']);
    expect(await offers('no-such', '--x')).toEqual([]);
  });
});

test.each(['bash', 'zsh', 'fish'])(
  'the script for %s names every command, option and word',
  async (shell) => {
    const text = await script(shell);
    for (const { name, options } of COMMANDS.values()) {
      expect(text).toContain(name);
      for (const [key, { choices = [] }] of Object.entries(options)) {
        expect(text).toContain(shell === 'fish' ? `-l ${key}` : `--${key}`);
        for (const word of choices) expect(text).toContain(word);
      }
    }
  },
);

// Where these shells are installed, they must be able to read the scripts.
test.each([
  ['bash', ['-n']],
  ['zsh', ['-n']],
  ['fish', ['--no-config', '--no-execute']],
])('%s can read its script', async (shell, args) => {
  const folder = makeFolder({ script: await script(shell) });
  const ran = await runProgram(shell, [...args, 'script'], folder).catch(() => undefined);
  fs.rmSync(folder, { recursive: true });
  if (shell === 'bash') expect(ran).toBeDefined();
  if (ran) expect(ran).toMatchObject({ code: 0, err: '' });
});

test('fish, where it is installed, offers what fits', async () => {
  const folder = makeFolder({ 'fettle.fish': await script('fish') });
  const ask = (words: string) =>
    runProgram(
      'fish',
      ['--no-config', '-c', `source '${folder}/fettle.fish'; complete -C '${words}'`],
      folder,
    );
  try {
    const command = await ask('fettle ch').catch(() => undefined);
    if (!command) return;
    expect(command.out).toMatch(/^check\t/m);
    expect((await ask('fettle check --format s')).out).toMatch(/^sarif/m);
    expect((await ask('fettle check --fa')).out).toMatch(/^--fail-on/m);
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
});

test('other shells are refused', async () => {
  expect(await runHere(['completion', 'tcsh'])).toMatchObject({
    code: 2,
    err: expect.stringMatching(/takes one of bash, zsh, fish/),
  });
});
