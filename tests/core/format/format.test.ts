import fs from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  formatOnType,
  formatRange,
  formatText,
  type TextChange,
} from '../../../server/core/features/formatting.ts';
import { printLink } from '../../../server/core/format/link.ts';
import type { Node } from '../../../server/core/syntax/node.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';
import { readExample } from '../../support/example.ts';
import { ROOT } from '../../support/lsp-client.ts';
import { VARIANTS } from '../../support/marked.ts';

const analysed = (text: string) => ({ tree: readTree(text) });

function apply(text: string, changes: readonly TextChange[]): string {
  return changes
    .toSorted((a, b) => b.from - a.from)
    .reduce((now, { from, to, text: put }) => now.slice(0, from) + put + now.slice(to), text);
}

const format = (text: string) => apply(text, formatText(analysed(text)));

/** What a tree says, with links as they are written. */
function saysOf(node: Node | undefined): unknown {
  if (node?.kind === 'scalar') return node.text.includes('->') ? printLink(node.text) : node.text;
  if (node?.kind === 'list') return node.items.map(saysOf);
  return node?.pairs.map(({ key, value }) => [key.text, saysOf(value)]);
}

const commentsOf = (text: string) =>
  [...text.matchAll(/(?:^|\s)(#.*?)[ \t]*$/gm)].map(([, comment]) => comment);
const blanksOf = (text: string) => text.split(/\r?\n/).map((line) => line.trim() === '');

/** Every definition of the project: examples, sheets and the texts with marks. */
const TEXTS = [
  ...fs.globSync('{examples,server/parts}/**/*.yaml', { cwd: ROOT }),
  ...fs.globSync('tests/**/*.{marked,machine.yaml,part.yaml}', { cwd: ROOT }),
].map((file) => [file, fs.readFileSync(path.join(ROOT, file), 'utf8')] as const);

/** Keeps what a formatter must keep, and finds nothing to do the second time. */
function expectKept(text: string, name: string): void {
  const once = format(text);
  expect(format(once), name).toBe(once);
  expect(once.replaceAll(/\s/g, ''), name).toBe(text.replaceAll(/\s/g, ''));
  expect(saysOf(readTree(once).root), name).toEqual(saysOf(readTree(text).root));
  expect(commentsOf(once), name).toEqual(commentsOf(text));
  const blanks = blanksOf(once);
  if (!/\n$/.test(text) && /\n$/.test(once)) blanks.pop();
  expect(blanks, name).toEqual(blanksOf(text));
}

describe('formatting', () => {
  test.each([...VARIANTS])('keeps every definition of the project, stored with %s', (_, vary) => {
    expect(TEXTS.length).toBeGreaterThan(40);
    for (const [name, text] of TEXTS) expectKept(vary(text), name);
  });

  test('keeps texts whose blanks somebody has moved about', () => {
    const pieces = readExample().split(/(?<=\n)/);
    const blanks = fc.array(fc.constantFrom('', '', '', ' ', '   '), { minLength: 12, maxLength: 12 });
    fc.assert(
      fc.property(fc.nat(pieces.length - 30), blanks, (from, more) => {
        const moved = pieces.map((line, index) => {
          const put = more[index - from];
          return put ? line.replace(/(?<=[,{[]) /g, ` ${put}`).replace(/\n$/, `${put}\n`) : line;
        });
        expectKept(moved.join(''), moved.slice(from, from + 12).join(''));
      }),
      { numRuns: 12, seed: 5 },
    );
  });

  test('keeps whatever is typed', () => {
    const word = fc.constantFrom(
      'parts:',
      '  a:',
      '- ',
      '{ ',
      ' }',
      '[',
      ']',
      ', ',
      'x: 1',
      '\n',
      '\n  ',
      ' # c',
      '"q"',
      "'",
      '|',
      '&a ',
      '*a',
      '->',
      'p.q -> r.s  BN',
      '🙂',
      '\t',
      '? ',
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 24 }), (words) => {
        const text = words.join('');
        const once = format(text);
        expect(once.replaceAll(/\s/g, '')).toBe(text.replaceAll(/\s/g, ''));
        expect(format(once)).toBe(once);
      }),
      { numRuns: 2000, seed: 7 },
    );
  });

  test('the sheets that ship are laid out so', () => {
    for (const [name, text] of TEXTS.filter(([file]) => file.startsWith('server/parts')))
      expect(format(text), name).toBe(text);
  });
});

test.each([
  [
    'begins the flow maps of neighbours in one column',
    'parts:\n  psu: {sheet:  generic/supply-24v ,at: bed}\n  # the drive\n  drive-x:  {  sheet: a }\n',
    'parts:\n  psu:     { sheet: generic/supply-24v, at: bed }\n  # the drive\n  drive-x: { sheet: a }\n',
  ],
  [
    'goes on with columns that somebody began',
    'parts:\n  a: { sheet: x,   at: bed }\n  b: { sheet: longer, at: desk }\n',
    'parts:\n  a: { sheet: x,      at: bed }\n  b: { sheet: longer, at: desk }\n',
  ],
  [
    'begins no columns by itself',
    'axes:\n  X:\n    drive: a\n    acceleration: b\n',
    'axes:\n  X:\n    drive: a\n    acceleration: b\n',
  ],
  ['spaces links', 'wiring:\n- a.V+->b.V+ ,c.V+ BN # x\n', 'wiring:\n  - a.V+ -> b.V+, c.V+  BN # x\n'],
  [
    'indents by two, comments with what follows',
    'axes:\n   # one\n   X:\n       # two\n       drive: a\n       switches:\n        - a\n',
    'axes:\n  # one\n  X:\n    # two\n    drive: a\n    switches:\n      - a\n',
  ],
  [
    'keeps comments of neighbours in one column',
    'a: 1     # x\nbcd: 22   # y\n',
    'a: 1      # x\nbcd: 22   # y\n',
  ],
  ['takes away blanks at the end, and ends the last line', 'a: 1  \n\t\nb: 2', 'a: 1\n\nb: 2\n'],
  [
    'leaves a text over several lines alone',
    'about: |\n  one   two\n\n    three\nmachine:   x\n',
    'about: |\n  one   two\n\n    three\nmachine: x\n',
  ],
])('%s', (_, before, after) => {
  expect(format(before)).toBe(after);
  expect(format(before.replaceAll('\n', '\r\n'))).toBe(after.replaceAll('\n', '\r\n'));
});

test('changes nothing but blanks, and only where it must', () => {
  const text = 'parts:\n  psu: { sheet: a }\n  drive-x: { sheet: b }\n';
  expect(formatText(analysed(text))).toEqual([{ from: 13, to: 14, text: '     ' }]);
});

test('a stretch changes in its lines only', () => {
  const text = 'machine:  x\nrevision:  2\nabout:  y\n';
  const at = text.indexOf('revision');
  expect(apply(text, formatRange(analysed(text), at, at + 3))).toBe('machine:  x\nrevision: 2\nabout:  y\n');
});

test('typing a new line lays out the one before with its table, and leaves the cursor alone', () => {
  const text = 'parts:\n  psu: { sheet: a }\n  drive-x: { sheet: b }\n  \n';
  expect(apply(text, formatOnType(analysed(text), text.length - 1))).toBe(
    'parts:\n  psu:     { sheet: a }\n  drive-x: { sheet: b }\n  \n',
  );
});
