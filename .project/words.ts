/**
 * Says what the dictionaries in l10n/ lack of the texts that the code says, and what nothing says any more. With
 * `--write` what is lacking is added as English, to be translated, what is too much goes, and all is sorted.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { compareWords, type Dictionary } from '../tests/support/words/compare.ts';
import { extractTexts } from '../tests/support/words/extract.ts';

const root = join(import.meta.dirname, '..');
const texts = extractTexts(root);
const keys = [...new Set(texts.map(({ key }) => key))].sort();

for (const language of ['de']) {
  const file = join(root, `l10n/bundle.l10n.${language}.json`);
  const dictionary = JSON.parse(readFileSync(file, 'utf8')) as Dictionary;
  for (const problem of compareWords(texts, dictionary)) {
    console.log(`${language} ${problem}`);
    process.exitCode = 1;
  }
  if (process.argv.includes('--write'))
    writeFileSync(
      file,
      `${JSON.stringify(Object.fromEntries(keys.map((key) => [key, dictionary[key] ?? key])), null, 2)}\n`,
    );
}
