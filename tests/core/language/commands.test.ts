import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { COMMANDS } from '../../../server/command/commands.ts';
import { STAGES } from '../../../server/core/commission/step.ts';
import { SECTIONS } from '../../../server/core/summary/summary.ts';
import { readExamples } from '../../support/examples.ts';
import { ROOT } from '../../support/lsp-client.ts';
import { englishLeft, wordsOfTexts } from '../../support/pseudo.ts';
import { inBoth } from './compare.ts';
import { FORMAT_WORDS, quotesIn, sheets } from './known.ts';

/** What the command line prints of the examples, of every sheet, and as help: nothing English is left in another language. */

const read = readExamples();
const examples = read.map(({ name, machine }) => path.join(ROOT, 'examples', name, machine));
const PARTS = path.join(ROOT, 'server/parts');
const parts = fs.readdirSync(PARTS).map((file) => path.join(PARTS, file));

/** What is typed, and so the same in every language. */
const calls = [...COMMANDS.values()].flatMap(({ name, options }) => [
  name,
  ...Object.entries(options).flatMap(([key, { choices = [] }]) => [key, ...choices]),
]);
const chosen = [...SECTIONS, ...STAGES];

/** Commands whose results are for people. */
const runs: readonly (readonly string[])[] = [
  ['check', '--fail-on', 'hint', ...examples],
  ...examples.flatMap((file) => [
    ['explain', file],
    ['settings', file],
    ['commission', file],
    ['commission', '--format', 'markdown', file],
    ['report', '--format', 'text', file],
  ]),
  ...parts.map((file) => ['explain', file]),
];

interface Output {
  readonly texts: readonly string[];
  readonly help: readonly string[];
  readonly codes: readonly number[];
  readonly data: readonly unknown[];
}

const { english, pseudo } = await inBoth(async (): Promise<Output> => {
  const { runHere } = await import('../../support/cli.ts');
  const ran = [];
  for (const args of runs) ran.push(await runHere(args));
  const help = [];
  for (const name of COMMANDS.keys()) help.push((await runHere(['help', name])).out);
  const data: unknown[] = [];
  for (const file of examples) {
    const { out } = await runHere(['commission', '--format', 'json', file]);
    data.push((JSON.parse(out) as { id: string; stage: string }[]).map(({ id, stage }) => [id, stage]));
    const { values, settings } = JSON.parse((await runHere(['report', '--format', 'json', file])).out);
    data.push(
      Object.keys(values),
      settings.map(({ part }: { part: string }) => part),
    );
  }
  return { texts: ran.flatMap(({ out, err }) => [out, err]), help, codes: ran.map(({ code }) => code), data };
});

test('there is much to look at', () => {
  expect(pseudo.texts.join('').length).toBeGreaterThan(200_000);
  expect(pseudo.help.length).toBeGreaterThan(9);
});

test('exit codes and what programs read are the same', () => {
  expect(pseudo.codes).toEqual(english.codes);
  expect(pseudo.data).toEqual(english.data);
});

const texts = [...sheets, ...read.flatMap(({ files }) => [...files.values()])];
const written = new Set([...FORMAT_WORDS, ...wordsOfTexts([...texts, ...examples, ...parts])]);

test('no English is left in results and talk', () => {
  const lines = pseudo.texts.flatMap((text) => text.split('\n'));
  const said = lines.filter((line) => !/^ *\d* \| /.test(line)); // lines of files are as they are written
  // The mark of a settings sheet is worked out of its values, and so the same.
  const marks = english.texts.flatMap((text) => text.match(/(?<=\(mark )\w+/g) ?? []);
  expect(marks.length).toBeGreaterThan(2);
  expect(englishLeft(said, new Set([...written, ...marks]), quotesIn(texts))).toEqual([]);
});

test('no English is left in help', () => {
  const names = new Set([...written, ...wordsOfTexts([...calls, ...chosen])]);
  const said = pseudo.help
    .flatMap((text) => text.split('\n'))
    .map((line) => line.replace(/^ *(?:fettle .*|(?:-\w, )?--.*?(?= {2}|$))/, ''));
  expect(said.join('\n').length).toBeGreaterThan(5000);
  expect(englishLeft(said, names)).toEqual([]);
});
