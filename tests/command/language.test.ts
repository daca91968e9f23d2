import path from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { makeFolder, runHere, writeFile } from '../support/cli.ts';
import { ROOT } from '../support/lsp-client.ts';

/** The language of the command line: what was asked for, and nothing else. */

const MACHINE = 'machine: Unit\naxes:\n  X: { travel: 640 }\n';
const folder = makeFolder();
const file = path.join(folder, 'unit.machine.yaml');
writeFile(folder, 'unit.machine.yaml', MACHINE);
const { LANG, LC_ALL } = process.env;
afterEach(() => {
  Object.assign(process.env, { LANG, LC_ALL });
});

it('says everything in German, wherever the option stands, and English again afterwards', async () => {
  const english = await runHere(['check', file]);
  expect(english.out).toContain('error: 640 has no unit');
  for (const args of [
    ['--language', 'de', 'check', file],
    ['check', '--language=de', file],
    ['check', file, '--language', 'de'],
  ]) {
    const german = await runHere(args);
    expect(german.out).toContain('Fehler: 640 hat keine Einheit');
    expect(german.err).toContain('1 Datei geprüft: 1 Fehler');
    expect(german.code).toBe(english.code);
  }
  expect(await runHere(['check', file])).toEqual(english);
  expect(await runHere(['--language', 'en', 'check', file])).toEqual(english);
});

it('does not depend on what the surroundings are set to', async () => {
  const english = await runHere(['check', file]);
  Object.assign(process.env, { LANG: 'de_DE.UTF-8', LC_ALL: 'de_DE.UTF-8' });
  expect(await runHere(['check', file])).toEqual(english);
});

it('keeps what programs read', async () => {
  const read = async (format: string, ...more: string[]) =>
    JSON.parse((await runHere(['check', '--format', format, file, ...more])).out);
  const [english, german] = [await read('json'), await read('json', '--language', 'de')];
  expect(german[0].message).toContain('hat keine Einheit');
  const facts = ({ message: _message, related: _related, ...rest }: Record<string, unknown>) => rest;
  expect(german.map(facts)).toEqual(english.map(facts));
  const rules = (log: {
    runs: { tool: { driver: { rules: { id: string }[] } }; results: { ruleId: string }[] }[];
  }) =>
    log.runs.map(({ tool, results }) => [
      tool.driver.rules.map(({ id }) => id),
      results.map(({ ruleId }) => ruleId),
    ]);
  expect(rules(await read('sarif', '--language', 'de'))).toEqual(rules(await read('sarif')));
  const junit = async (...more: string[]) =>
    (await runHere(['check', '--format', 'junit', file, ...more])).out;
  const names = (xml: string) => xml.match(/ (?:name|classname|type)="[^"]*"/g);
  expect(names(await junit('--language', 'de'))).toEqual(names(await junit()));
  expect(await junit('--language', 'de')).toContain('hat keine Einheit');
});

it('helps in German', async () => {
  const { out, code } = await runHere(['help', '--language', 'de']);
  expect(code).toBe(0);
  expect(out).toContain('was an Maschinen und Bauteilblättern falsch ist');
  expect(out).toContain('--language LANGUAGE');
  expect((await runHere(['help', 'check', '--language', 'de'])).out).toContain('Optionen:');
  expect((await runHere(['completion', 'fish', '--language', 'de'])).out).toMatch(
    /-l language .*'die Sprache/,
  );
});

it('refuses a language that there is not, and takes no file for one', async () => {
  for (const args of [['--language', 'xx'], ['--language'], ['--language=../de'], ['check', '--language']]) {
    const { err, code } = await runHere(args);
    expect(err).toContain('--language takes one of en, de.');
    expect(code).toBe(2);
  }
  const { err } = await runHere(['check', '--', '--language', 'de']);
  expect(err).toContain('--language does not exist.');
  expect((await runHere(['check', '--langage', 'de', file])).err).toContain('Did you mean --language?');
});

it('speaks of a bench in German', async () => {
  const sheet = path.join(ROOT, 'server/parts/servo-drive-400w.part.yaml');
  const { out } = await runHere(['explain', sheet, '--language', 'de']);
  expect(out).toMatch(/^Auf einem Prüfstand/);
});
