import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../server/command/commands.ts';
import { readArguments } from '../../server/command/options.ts';
import { runHere } from '../support/cli.ts';
import { ROOT } from '../support/lsp-client.ts';

/** Every `fettle …` that a text tells its reader to type: up to the quote or tick that it stands in, or to its line's end. */
function commandsIn(text: string): string[] {
  return [...text.matchAll(/(['`"]?)(?<![\w/-])fettle ((?:[a-z]+)(?: .*)?)$/gm)].flatMap(
    ([, open = '', rest = '']) => {
      const line = open === '' ? rest.replace(/ (?:[|>;&<]|\|\|) .*/, '') : (rest.split(open)[0] ?? '');
      return [line.replace(/[.,]$/, '').trim()];
    },
  );
}

/** Splits a line as a shell does, as far as the documents need it. */
const wordsOf = (line: string) =>
  [...line.matchAll(/'([^']*)'|"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? match[3] ?? '');

const folders = ['docs', 'docs/version-control'];
const documents = folders.flatMap((folder) =>
  fs
    .readdirSync(path.join(ROOT, folder), { withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map(({ name }) => path.join(folder, name)),
);

describe.each(
  [...documents, 'README.md', '.pre-commit-hooks.yaml'].filter((file) => file !== 'docs/format.md'),
)('%s', (file) => {
  const lines = commandsIn(fs.readFileSync(path.join(ROOT, file), 'utf8')).filter((line) =>
    COMMANDS.has(wordsOf(line)[0] ?? ''),
  );
  test('names options that exist', () => {
    for (const line of lines) {
      const [name = '', ...rest] = wordsOf(line);
      const command = COMMANDS.get(name);
      if (command)
        expect(
          () =>
            readArguments(
              name,
              command.options,
              rest.filter((word) => word !== '\\'),
            ),
          line,
        ).not.toThrow();
    }
  });
});

test('the documents were read', () => {
  const text = fs.readFileSync(path.join(ROOT, 'docs/version-control.md'), 'utf8');
  expect(commandsIn(text).length).toBeGreaterThan(5);
  expect(commandsIn('Type `fettle check --shard 1/4 x`')).toEqual(['check --shard 1/4 x']);
});

describe.each([...COMMANDS.values()])('help of $name', (command) => {
  test('names every option, and its examples can be typed', async () => {
    const { code, out } = await runHere(['help', command.name]);
    expect(code).toBe(0);
    for (const option of Object.keys(command.options)) expect(out).toContain(`--${option}`);
    expect(command.examples.length).toBeGreaterThan(0);
    for (const example of command.examples) {
      expect(out).toContain(example);
      const [program, name = '', ...rest] = wordsOf(example.replace(/ [<>] .*/, ''));
      expect([program, name]).toEqual(['fettle', command.name]);
      expect(() => readArguments(name, command.options, rest), example).not.toThrow();
    }
    for (const line of out.split('\n')) expect(line.length, line).toBeLessThan(125);
    expect((await runHere([command.name, '--help'])).out).toBe(out);
  });
});

test('help lists every command', async () => {
  const { out } = await runHere(['help']);
  for (const name of COMMANDS.keys()) expect(out).toContain(`fettle ${name}`);
  expect(await runHere(['help', 'chekc'])).toMatchObject({
    code: 2,
    err: expect.stringMatching(/Did you mean check\?/),
  });
  expect(await runHere([])).toMatchObject({ code: 2, out });
});
