import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Node, textOf, valueUnder } from '../../../server/core/syntax/node.ts';
import { rangeOf, readTree } from '../../../server/core/syntax/tree.ts';

const codes = (text: string) => readTree(text).problems.map((problem) => problem.code);
const placed = (text: string) => {
  const tree = readTree(text);
  return tree.problems.map((problem) => {
    const range = rangeOf(tree, problem.at);
    return [problem.code, range && text.slice(range.from, range.to)];
  });
};

describe('values keep their spelling', () => {
  test.each([
    'Y',
    'N',
    'on',
    'off',
    'yes',
    'no',
    '012',
    '1_000',
    '12:30',
    '0x1F',
    '9007199254740993',
    '1e3',
    '.5',
  ])('%s', (word) => {
    expect(textOf(readTree(`a: ${word}\n`).root, 'a')).toBe(word);
  });

  test('an axis may be called Y', () => {
    const axes = valueUnder(readTree('axes:\n  Y: { travel: 1 mm }\n').root, 'axes');
    expect(axes?.kind === 'map' && axes.pairs[0]?.key.text).toBe('Y');
  });
});

describe('a comma in a number in braces', () => {
  const read = (text: string) => {
    const map = valueUnder(readTree(text).root, 'a');
    return map?.kind === 'map' ? map.pairs.map(({ key }) => [key.text, textOf(map, key.text)]) : [];
  };

  test('does not end it', () => {
    const text = 'a: { lead: 1,25 mm, mass: 1,200.5 kg, friction: 0,05 }\n';
    expect(read(text)).toEqual([
      ['lead', '1,25 mm'],
      ['mass', '1,200.5 kg'],
      ['friction', '0,05'],
    ]);
    const tree = readTree(text);
    const lead = valueUnder(valueUnder(tree.root, 'a'), 'lead');
    expect(lead && text.slice(rangeOf(tree, lead)?.from, rangeOf(tree, lead)?.to)).toBe('1,25 mm');
  });

  test.each([
    ['a: { lead: 1, 25 mm: 2 }\n', ['lead', '25 mm']],
    ['a: { lead: 1 mm,25 mm }\n', ['lead', '25 mm']],
    ['a: { lead: 1, 25 }\n', ['lead', '25']],
    ['a: { lead: 1,25: 2 }\n', ['lead', '25']],
    ['a: { lead: "1",25 }\n', ['lead', '25']],
  ])('%s is two keys', (text, keys) => {
    expect(read(text).map(([key]) => key)).toEqual(keys);
  });

  test('is part of the number under a key that stands twice, too', () => {
    expect(placed('a: { lead: 1 mm, lead: 1,25 mm }\n')).toEqual([['yaml/duplicate-key', 'lead']]);
  });
});

describe('problems', () => {
  test.each<[string, string, [string, string | undefined][]]>([
    ['a key twice in a section', 'a:\n  k: 1\n  k: 2\n', [['yaml/duplicate-key', 'k']]],
    ['a section twice', 'a: 1\nb: 2\na: 3\n', [['yaml/duplicate-key', 'a']]],
    ['a key twice in a flow map', 'a: { k: 1, k: 2 }\n', [['yaml/duplicate-key', 'k']]],
    ['an alias without an anchor', 'a: *nobody\n', [['yaml/alias-unresolved', '*nobody']]],
    ['an alias inside its own anchor', 'a: &x { b: *x }\n', [['yaml/alias-unresolved', '*x']]],
    ['half a key', 'machine: A\npar\n', [['yaml/syntax', 'par']]],
    ['a second document', 'machine: A\n---\nmachine: B\n', [['yaml/syntax', '---']]],
    ['what follows an end of document', 'machine: A\n...\nparts:\n  a: b\n', [['yaml/syntax', 'parts:']]],
    [
      'half an entry',
      'parts:\n  a: { sheet: x }\n  dri\nwiring:\n  - a.b -> c.d\n',
      [['yaml/syntax', 'dri']],
    ],
  ])('%s', (_, text, expected) => {
    expect(placed(text)).toEqual(expected);
  });

  test('an open quote or bracket is one problem, and the entries around it are read', () => {
    for (const broken of ['{ sheet: x', '"open', '[1, 2']) {
      const text = `parts:\n  a: { sheet: one }\n  b: ${broken}\n  c: { sheet: three }\n`;
      const tree = readTree(text);
      expect(tree.problems.map((problem) => problem.code)).toEqual(['yaml/syntax']);
      const parts = valueUnder(tree.root, 'parts');
      expect(textOf(valueUnder(parts, 'c'), 'sheet')).toBe('three');
    }
  });

  test('tabs are one problem, whatever else they upset', () => {
    expect(codes('parts:\n\ta: { sheet: x }\n\tb: { sheet: y }\n')).toEqual(['yaml/tab-indentation']);
  });

  test('a merge conflict is one problem, and the first side is read', () => {
    const text = 'machine: A\n<<<<<<< ours\nrevision: 1\n=======\nrevision: 2\n>>>>>>> theirs\nabout: x\n';
    const tree = readTree(text);
    expect(tree.problems.map((problem) => problem.code)).toEqual(['yaml/conflict-markers']);
    expect(textOf(tree.root, 'revision')).toBe('1');
    expect(textOf(tree.root, 'about')).toBe('x');
  });

  test('aliases that explode are stopped', () => {
    const lines = ['a0: &a0 [x, x, x, x, x, x, x, x, x, x]'];
    for (let level = 1; level < 12; level++)
      lines.push(
        `a${level}: &a${level} [${Array(10)
          .fill(`*a${level - 1}`)
          .join(', ')}]`,
      );
    expect(codes(`${lines.join('\n')}\n`)).toEqual(['yaml/alias-too-large']);
  });

  test.each([
    ['flow lists', `a: ${'['.repeat(10_000)}`],
    ['block maps', Array.from({ length: 1_000 }, (_, depth) => `${' '.repeat(depth)}a:`).join('\n')],
    ['dashes', `${'- '.repeat(5_000)}x`],
  ])('%s nested too deep', (_, text) => {
    expect(codes(text)).toEqual(['yaml/too-deep']);
  });
});

describe('aliases and merge keys', () => {
  test('an alias stands for what its anchor names', () => {
    const root = readTree('a: &wire 0.5 mm2\nb: *wire\n').root;
    expect(textOf(root, 'b')).toBe('0.5 mm2');
  });

  test('a merge key brings in what is not written', () => {
    const root = readTree('a: &base { k: 1, l: 2 }\nb:\n  <<: *base\n  l: 3\n').root;
    const b = valueUnder(root, 'b');
    expect([textOf(b, 'k'), textOf(b, 'l')]).toEqual(['1', '3']);
  });
});

describe('places', () => {
  test.each([
    ['plain', 'a: x.y -> z\n'],
    ['single quotes', "a: 'x.y -> z'\n"],
    ['double quotes', 'a: "x.y -> z"\n'],
  ])('the text of a scalar in %s stands where it says', (_, text) => {
    const node = valueUnder(readTree(text).root, 'a') as Extract<Node, { kind: 'scalar' }>;
    expect(node.textFrom).toBe(text.indexOf('x.y'));
  });

  test.each([
    ['escapes', 'a: "x\\ty"\n'],
    ['a fold', 'a: x\n  y\n'],
    ['a block', 'a: |\n  x\n'],
  ])('a scalar with %s has no letter-by-letter place', (_, text) => {
    const node = valueUnder(readTree(text).root, 'a') as Extract<Node, { kind: 'scalar' }>;
    expect(node.textFrom).toBeUndefined();
  });
});

test('any bytes are read without a fault, and every problem lies inside the text', () => {
  fc.assert(
    fc.property(
      fc.string({
        unit: fc.constantFrom(
          'a',
          ':',
          ' ',
          '\n',
          '\r',
          '\t',
          '-',
          '{',
          '}',
          '[',
          ']',
          '"',
          "'",
          '#',
          '&',
          '*',
          '|',
          '>',
          '%',
          '\u0000',
          '\ufeff',
          '\ud800',
          '😀',
          ',',
          '?',
          '!',
          '<',
          '=',
        ),
        maxLength: 200,
      }),
      (text) => {
        const tree = readTree(text);
        for (const problem of tree.problems) {
          const range = rangeOf(tree, problem.at);
          expect(range && range.from >= 0 && range.from <= range.to && range.to <= text.length).toBe(true);
        }
      },
    ),
    { numRuns: 3000 },
  );
});
