import fs from 'node:fs';
import path from 'node:path';
import { ROOT } from '../../support/lsp-client.ts';
import { wordsOfTexts } from '../../support/pseudo.ts';

/*
 * What stays as it is in every language, since it is typed into files that way or is a name: the words of the format,
 * the names and texts of the sheets that ship, units, codes of colours, and abbreviations of the trade.
 */

const SCHEMAS = path.join(ROOT, 'schemas');
const PARTS = path.join(ROOT, 'server/parts');

/** The keys and choices of the format, from its published schemas. */
function formatWords(): Set<string> {
  const words = new Set<string>();
  const walk = (value: unknown, key: string): void => {
    if (key === 'description' || key === 'markdownDescription' || key === 'title') return;
    if (typeof value === 'string') for (const word of wordsOfTexts([value])) words.add(word);
    if (typeof value !== 'object' || value === null) return;
    for (const [name, inner] of Object.entries(value)) {
      for (const word of wordsOfTexts([name])) words.add(word);
      walk(inner, name);
    }
  };
  for (const file of fs.readdirSync(SCHEMAS).filter((name) => name.endsWith('.schema.json')))
    walk(JSON.parse(fs.readFileSync(path.join(SCHEMAS, file), 'utf8')), '');
  return words;
}

export const sheets = fs.readdirSync(PARTS).map((file) => fs.readFileSync(path.join(PARTS, file), 'utf8'));

/** Abbreviations and names of standards, and signs of electricity. */
const NAMES = [
  'sin',
  'cos',
  'ppm',
  'rad',
  'mohm',
  'isolate',
  'inductive',
  'GNYE',
  'kgf',
  'IEC',
  'NFPA',
  'AWG',
  'YAML',
  'NPN',
  'PNP',
  'RMS',
  'ISO',
  'generic',
  'rpm',
  'kHz',
  'MHz',
  'ohm',
  'kohm',
  'Mohm',
  'deg',
];

/** The titles and remarks of definitions, which every language shows as they are written. */
export function quotesIn(texts: Iterable<string>): string[] {
  return [...texts].flatMap((text) =>
    [...text.matchAll(/^\s*(?:part|machine|about|source|project): *(.+?) *$/gm)].map(
      ([, quote = '']) => quote,
    ),
  );
}

export const FORMAT_WORDS: ReadonlySet<string> = new Set([
  ...formatWords(),
  ...wordsOfTexts(sheets),
  ...NAMES,
]);
