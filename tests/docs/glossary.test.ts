import fs from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { ROOT } from '../support/lsp-client.ts';

const page = fs.readFileSync(path.join(ROOT, 'docs/glossary.md'), 'utf8');
const [terms = [], standards = []] = page.split('## The standards').map(rowsOf);

/** The rows of the tables in a text, without their heads. */
function rowsOf(text: string): string[][] {
  return text
    .split('\n')
    .filter((line) => line.startsWith('| '))
    .slice(2)
    .map((line) =>
      line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim()),
    );
}

/** The numbers of standards in a text: `IEC 60947-5-1`, `TIA/EIA-422-B`. */
const numbersIn = (text: string) =>
  [...text.matchAll(/(?:(?:IEC|ISO|EN) \d[\d-]*\d|ASTM B\d+|TIA\/EIA-[\dA-Z-]+)/g)].map(([number]) => number);

test('every term is explained, and says who defines it', () => {
  expect(terms.length).toBeGreaterThan(55);
  const bare = terms.filter(
    ([term = '', meaning = '', source = '']) => !term || meaning.length < 10 || !source,
  );
  expect(bare).toEqual([]);
});

test('a term that no standard defines is marked, and a standard from memory too', () => {
  const unmarked = terms.filter(([, , source = '']) =>
    numbersIn(source).length > 0
      ? !/from memory|checked by/.test(source)
      : !/trade|this tool|textbook/.test(source),
  );
  expect(unmarked).toEqual([]);
});

test('every standard that a term names has its title, and none is named in vain', () => {
  const named = new Set(terms.flatMap(([, , source = '']) => numbersIn(source)));
  expect([...named].sort()).toEqual(standards.map(([number = '']) => number).sort());
  expect(standards.filter(([, title = '']) => title.length < 8)).toEqual([]);
});

test('the terms are in order', () => {
  const names = terms.map(([term = '']) => term.toLowerCase());
  expect(names).toEqual(names.toSorted());
});
