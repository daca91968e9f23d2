import fs from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { extractTexts, sourcesIn } from '../support/words/extract.ts';
import { unsaidIn } from '../support/words/unsaid.ts';

/** No text that a person reads stands in the code without being said in the language in use. */

const ROOT = path.resolve(import.meta.dirname, '../..');
const FOLDERS = ['client', 'server/protocol', 'server/files', 'server/command'];
const sources = FOLDERS.flatMap((folder) => sourcesIn(ROOT, folder)).filter(
  (file) => !file.startsWith('client/page/'), // its texts are views, which tests of the page look at
);

/** Markup and scripts, and what is typed. */
const CODE = /^\s*(?:<|…?\s*<(?:testcase|failure)|#|::error|fettle )/;

/** What is nobody's language, is read by programs or by the makers of editors alone, or is written into a file. */
const KNOWN: ReadonlySet<string> = new Set([
  'Fettle',
  'worker-src blob:',
  'OLD NEW',
  'summary-section changes',
  'if not', // heads of columns
  'why again',
  'key in',
  'its datasheet',
  'The request was cancelled.',
  '… came before initialize.',
  '… is not known here.',
  'initialize comes once in a session.',
  'The session has been shut down.',
]);

it('finds none in what the extension, the server and the command line say', () => {
  const texts = new Set(extractTexts(ROOT).map(({ file }) => file));
  expect(sources.length).toBeGreaterThan(60);
  expect(sources.filter((file) => texts.has(file)).length).toBeGreaterThan(20);
  const unsaid = sources.flatMap((file) =>
    unsaidIn(fs.readFileSync(path.join(ROOT, file), 'utf8'))
      .filter(({ text }) => !KNOWN.has(text) && !CODE.test(text))
      .map(({ line, text }) => `${file}:${line}: ${text}`),
  );
  expect(unsaid).toEqual([]);
});

it('would find them, by what they look like and by where they stand', () => {
  const source = [
    "const a = 'It cannot be read.';",
    "vscode.window.showErrorMessage('Try again', vscode.l10n.t('Show log'));",
    'const b = `$' + '{name} has ended`; const c = say`$' + "{many ? 'two words' : 'Word'} is said`;",
    "items.push({ label: 'linear', kind: 'linear', key: 'fettle.summary' });",
    "log.warn('It is logged.'); guard(connection, 'code lens', [], () => ({ title: 'Open' }));",
    "type A = 'not read'; import x from './a file';",
  ].join('\n');
  expect(unsaidIn(source).map(({ line, text }) => `${line} ${text}`)).toEqual([
    '1 It cannot be read.',
    '2 Try again',
    '3 … has ended',
    '4 linear',
    '5 Open',
  ]);
});
