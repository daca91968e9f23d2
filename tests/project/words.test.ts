import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { compareWords, type Dictionary } from '../support/words/compare.ts';
import { extractTexts, textsIn } from '../support/words/extract.ts';

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
