import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { LANGUAGES } from '../../server/command/language.ts';
import { compareWords, type Dictionary } from '../support/words/compare.ts';
import { extractTexts, textsIn } from '../support/words/extract.ts';
import {
  compareManifest,
  pageIn,
  readManifest,
  readManifestTexts,
  readStrings,
} from '../support/words/manifest.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
const texts = extractTexts(ROOT);
const german = readDictionary('l10n/bundle.l10n.de.json');

function readDictionary(file: string): Dictionary {
  return JSON.parse(fs.readFileSync(path.join(ROOT, file), 'utf8')) as Dictionary;
}

describe('the texts of the code', () => {
  it('are found by the grammar of the code', () => {
    const source =
      'const a = say`$' +
      '{name} $' +
      "{many ? 'end' : 'ends'} at $" +
      '{10}`; const b = later`A title`;' +
      "vscode.l10n.t('Try {0}', x); other`no`;";
    expect(textsIn('a.ts', source)).toEqual([
      { key: '{0} {1} at {2}', choices: [[], ['end', 'ends'], []], file: 'a.ts' },
      { key: 'A title', choices: [], file: 'a.ts' },
      { key: 'Try {0}', choices: [], file: 'a.ts' },
    ]);
    expect(texts.length).toBeGreaterThan(500);
  });

  it('are in every language that the command line takes', () => {
    const languages = fs
      .readdirSync(path.join(ROOT, 'l10n'))
      .map((file) => /^bundle\.l10n\.(\w+)\.json$/.exec(file)?.[1]);
    expect([...LANGUAGES]).toEqual([
      'en',
      ...languages.toSorted((a = '', b = '') => a.localeCompare(b, 'en')),
    ]);
  });

  it('are all in German, and nothing else is', () => {
    expect(compareWords(texts, german)).toEqual([]);
  });

  it('would be missed', () => {
    const text = { key: '{0} {1} at {2}', choices: [[], ['end', 'ends'], []], file: 'a.ts' };
    const wrong = (translated: string) => compareWords([text], { [text.key]: translated });
    expect(compareWords([text], {})).toEqual(['lacks "{0} {1} at {2}" of a.ts']);
    expect(compareWords([], { Old: 'Alt' })).toEqual(['has "Old", which nothing says']);
    expect(wrong('')).toEqual(['says nothing for "{0} {1} at {2}" of a.ts']);
    expect(wrong('{0} endet')).toEqual(['has other figures in "{0} {1} at {2}" of a.ts']);
    expect(wrong('{0} {1|end=enden} bei {2}')).toEqual(['does not say "ends" in "{0} {1} at {2}" of a.ts']);
    expect(wrong('{0} {1|end=enden|ends=endet} bei {2}')).toEqual([]);
  });
});

describe('the texts of the manifest', () => {
  const { description, capabilities, contributes } = JSON.parse(
    fs.readFileSync(path.join(ROOT, 'package.json'), 'utf8'),
  );
  const strings = readStrings({ description, capabilities, contributes });
  const english = readManifestTexts(ROOT);
  const german = readManifestTexts(ROOT, 'de');

  it('stand in both languages, and none that nothing shows', () => {
    expect(strings.length).toBeGreaterThan(30);
    expect(compareManifest(strings, english, german)).toEqual([]);
  });

  it('would be missed', () => {
    const given = readStrings({
      commands: [{ title: '%a%', when: 'in a list', category: 'Fettle' }],
      view: { title: 'Plain', when: 'x' },
      unheard: { of: ['Two words'] },
    });
    const text = 'Point at `x`.\n[Go](command:go)';
    expect(compareManifest(given, { a: text, b: 'Old' }, { a: 'Auf `y` zeigen' })).toEqual([
      'says "Plain" itself',
      'says "Two words" itself',
      'has b, which nothing shows',
      'has other links, code or figures in a',
    ]);
    expect(compareManifest(given.slice(0, 1), { a: text }, {})[0]).toBe('lacks a');
  });

  it('are other words in German, and the pages of the walkthrough with the same pictures', () => {
    const same = Object.keys(english).filter((key) => english[key] === german[key]);
    expect(same).toEqual([]);
    const pages: readonly string[] = contributes.walkthroughs.flatMap(
      ({ steps }: { steps: { media: { markdown: string } }[] }) => steps.map(({ media }) => media.markdown),
    );
    expect(pages.length).toBeGreaterThan(3);
    const read = (page: string) => fs.readFileSync(path.join(ROOT, page), 'utf8');
    const signs = (text: string) => text.match(/\]\([^)]+\)|`[^`]+`|^#+ /gm);
    for (const page of pages) {
      expect(signs(read(pageIn('de', page))), page).toEqual(signs(read(page)));
      expect(read(pageIn('de', page)), page).not.toBe(read(page));
    }
  });

  it('are what other texts call the commands', () => {
    const named = (words: Dictionary) =>
      Object.values(words).flatMap((text) =>
        [...text.matchAll(/[“„]Fettle: ([^”“]+)[”“]/g)].map(([, name]) => name),
      );
    const titles = (language?: string): string[] =>
      readManifest(ROOT, language).contributes.commands.map(({ title }: { title: string }) => title);
    const keys = Object.fromEntries(texts.map(({ key }) => [key, key]));
    for (const [words, language] of [[keys], [readDictionary('l10n/bundle.l10n.de.json'), 'de']] as const) {
      expect(named(words).length).toBeGreaterThan(1);
      expect(titles(language)).toEqual(expect.arrayContaining(named(words)));
    }
  });
});
