import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutText } from '../../../server/core/syntax/blocks.ts';
import { readTree } from '../../../server/core/syntax/tree.ts';
import { parseBlock } from '../../../server/core/syntax/yaml-block.ts';
import { plainTree } from './plain.ts';

const example = readFileSync(
  new URL('../../../examples/gantry-router/gantry-router.machine.yaml', import.meta.url),
  'utf8',
);

/** The same text parsed in one piece, as the cut must not change what a text means. */
function wholeTree(text: string) {
  const block = { text };
  const { root, problems } = parseBlock(block);
  return {
    tree: { text, root, problems, blocks: [block], starts: new Map([[block, 0]]), moved: new Map() },
    problems,
  };
}

const VALUES = [
  'a',
  '24 V',
  '[1, 2]',
  '{ x: 1, y: [z] }',
  '"q: r"',
  "'it''s'",
  '|\n      one\n      two: 3\n',
  '|\n      one\n      # no comment\n',
  '|+\n      one\n\n\n',
  '>\n      folded\n      text\n',
  'a\n      b',
];
const names = fc.constantFrom('panel', 'drive-x', 'Y', 'on', '012', 'a b', 'k_1');
const valueText = fc.constantFrom(...VALUES);
const comment = fc.constantFrom(
  '',
  ' # note',
  '\n# whole line',
  '\n\n',
  '\n  # indented',
  '\n  # indented\n        # deeper\n',
  '\n# whole line\n\n    # and deeper',
);

/** A comment behind a value, which may end its line itself. */
const behind = (value: string, note: string) => (value.endsWith('\n') ? note.replace(/^\n/, '') : note);

/** Valid definitions with every kind of value at every depth that the cut looks at. */
const definitions = fc
  .uniqueArray(
    fc.record({
      name: names,
      body: fc.oneof(
        valueText.map((value) => ` ${value.replaceAll('      ', '  ')}`),
        fc
          .uniqueArray(fc.tuple(names, valueText, comment), {
            selector: ([name]) => name,
            minLength: 1,
            maxLength: 4,
          })
          .map(
            (entries) =>
              `\n${entries.map(([name, value, note]) => `  ${name}: ${value}${behind(value, note)}`).join('\n')}`,
          ),
        fc
          .array(fc.constantFrom('a.b -> c.d', '{ link: a.b -> c.d }', 'k: v\n    l: w', '- x\n    - y'), {
            minLength: 1,
            maxLength: 4,
          })
          .chain((items) =>
            fc
              .constantFrom('  ', '')
              .map(
                (indent) =>
                  `\n${items.map((item) => `${indent}- ${item.replaceAll('    ', `${indent}  `)}`).join('\n')}`,
              ),
          ),
      ),
      note: comment,
    }),
    { selector: ({ name }) => name, minLength: 1, maxLength: 5 },
  )
  .map(
    (sections) =>
      `${sections.map(({ name, body, note }) => `${name}:${body}${behind(body, note)}`).join('\n')}\n`,
  );

describe('cutting a text into blocks', () => {
  test('leaves no gap and no overlap in any text', () => {
    fc.assert(
      fc.property(fc.oneof(definitions, fc.string({ unit: 'binary', maxLength: 300 })), (text) => {
        const { kinds, starts } = cutText(text);
        expect(starts).toHaveLength(kinds.length + 1);
        expect(starts[0]).toBe(0);
        expect(starts.at(-1)).toBe(text.length);
        expect(starts).toEqual(starts.toSorted((a, b) => a - b));
        if (text !== '') expect(new Set(starts).size).toBe(starts.length);
      }),
      { numRuns: 500 },
    );
  });

  test('means the same as the text in one piece', () => {
    let cut = 0;
    fc.assert(
      fc.property(definitions, (text) => {
        const whole = wholeTree(text);
        fc.pre(whole.problems.length === 0);
        const tree = readTree(text);
        if (tree.blocks.length > 1) cut += 1;
        expect(tree.problems).toEqual([]);
        expect(plainTree(tree)).toEqual(plainTree(whole.tree));
      }),
      { numRuns: 1000 },
    );
    expect(cut).toBeGreaterThan(500);
  });

  test('cuts the example by its entries, and means the same', () => {
    const tree = readTree(example);
    expect(tree.blocks.length).toBeGreaterThan(100);
    expect(plainTree(tree)).toEqual(plainTree(wholeTree(example).tree));
  });

  test.each([
    [
      'a line that stands less deep',
      'a:\n    b: 1\n    # note\n    c: 2\n  d: 3\n# end\n',
      ['section', 'between'],
    ],
    ['an item among entries', 'a:\n  b: 1\n  # note\n  - c\n', ['section']],
    [
      'entries that stand as items do',
      'a:\n- b\n# note\n- c\nd: 1\n',
      ['key', 'entry', 'between', 'entry', 'section'],
    ],
    ['a bracket at the start of a line', 'a:\n  b: [1,\n]\n  c: 2\n', ['section']],
    ['a value behind the key', 'a: 1\n  b: 2\n', ['section']],
    ['comments before everything', '# one\n\na: 1\n', ['between', 'section']],
  ])('knows sections and entries in a text with %s', (_, text, kinds) => {
    expect(cutText(text).kinds).toEqual(kinds);
  });

  test.each([
    ['an anchor', 'a: &x 1\nb: *x\n'],
    ['a merge key', 'a: { k: 1 }\nb:\n  <<: { k: 1 }\n'],
    ['a directive', '%YAML 1.2\n---\na: 1\n'],
    ['two documents', 'a: 1\n---\nb: 2\n'],
    ['a lone carriage return', 'a: 1\rb: 2\n'],
    ['a flow map', '{ a: 1,\nb: 2 }\n'],
    ['a list', '- a\n- b\n'],
  ])('does not cut a text with %s', (_, text) => {
    expect(cutText(text)).toEqual({ kinds: ['whole'], starts: [0, text.length] });
  });
});

describe('editing', () => {
  test('random edits give the tree of the text read afresh, and keep unchanged blocks', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            at: fc.nat(example.length),
            remove: fc.nat(30),
            insert: fc.constantFrom('', 'x', ': ', '\n', '  ', '- ', '"', '{', '}', '#', 'a: b\n'),
          }),
          { minLength: 1, maxLength: 6 },
        ),
        (edits) => {
          let text = example;
          let tree = readTree(text);
          for (const { at, remove, insert } of edits) {
            text = text.slice(0, at) + insert + text.slice(at + remove);
            tree = readTree(text, tree);
          }
          const fresh = readTree(text);
          expect(plainTree(tree)).toEqual(plainTree(fresh));
          expect(tree.problems.map(({ code, data }) => ({ code, data }))).toEqual(
            fresh.problems.map(({ code, data }) => ({ code, data })),
          );
        },
      ),
      { numRuns: 60 },
    );
  });

  test('an edit inside one entry parses that entry only', () => {
    const before = readTree(example);
    const at = example.indexOf('microsteps: 8') + 'microsteps: '.length;
    const after = readTree(`${example.slice(0, at)}16${example.slice(at + 1)}`, before);
    const kept = new Set(before.blocks);
    expect(after.blocks.filter((block) => !kept.has(block))).toHaveLength(1);
  });

  test('a comment between entries changes none of them', () => {
    const text =
      '# first\nparts:\n  # second\n  a: { sheet: x }\n\n  # third\n  b: |\n    one\n    # two\n# last\n';
    const before = readTree(text);
    for (const comment of ['first', 'second', 'third', 'last']) {
      const after = readTree(text.replace(`# ${comment}`, `# ${comment} and more`), before);
      expect(after.root).toBe(before.root);
    }
    const after = readTree(text.replace('# two', '# 2'), before);
    expect(after.root).not.toBe(before.root);
    expect(plainTree(after)).toEqual(plainTree(readTree(text.replace('# two', '# 2'))));
  });

  test('equal lines are different places', () => {
    const text = 'wiring:\n  - a.b -> c.d\n  - a.b -> c.d\n';
    const tree = readTree(text);
    expect(new Set(tree.blocks).size).toBe(3);
    expect(new Set(tree.blocks.map((block) => tree.starts.get(block))).size).toBe(3);
  });
});
