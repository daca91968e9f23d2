import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Node } from '../../../server/core/syntax/node.ts';
import { extentOf, rangeOf, readTree, spanAt, type Tree } from '../../../server/core/syntax/tree.ts';

/*
 * Comments and blanks inside an entry mean nothing: whoever types them keeps the nodes of the entry, and only where these
 * stand is another.
 */

const LINES = [
  'machine: Ochre saw',
  'parts:',
  '  panel:',
  '    sheet: generic/panel',
  '    set: { c1: 8,  c2: "a # b",',
  '      c3: [x, y] }',
  '  drive: { sheet: generic/drive, at: cabinet }',
  'wiring:',
  '  - panel.X -> drive.X',
  '  - { link: panel.Y -> drive.Y, length: 1.5 m }',
  '',
];
const TEXT = LINES.join('\n');

function nodesOf(node: Node | undefined): Node[] {
  if (!node) return [];
  if (node.kind === 'scalar') return [node];
  const children = node.kind === 'list' ? node.items : node.pairs.flatMap(({ key, value }) => [key, value]);
  return [node, ...children.flatMap(nodesOf)];
}

/** Where every node stands, from its first letter to the last letter of what it holds. */
const placesOf = (tree: Tree) =>
  nodesOf(tree.root).map((node) => [node.kind, rangeOf(tree, node), extentOf(tree, node)]);

describe('an entry whose words are the same', () => {
  it.each([
    ['a comment behind a word', '8,  c2', '8, # scale\n      c2'],
    ['a comment on a line of its own', '    set:', '    # as keyed in\n    set:'],
    ['blanks that stand words below one another', '8,  c2', '8,      c2'],
    ['a comment behind an item', 'drive.X\n', 'drive.X # black\n'],
    ['a comment behind the last word', '1.5 m }\n', '1.5 m } # measured'],
  ])('keeps its nodes through %s', (_, from, to) => {
    const before = readTree(TEXT);
    const text = TEXT.replace(from, to);
    const after = readTree(text, before);
    expect(text).not.toBe(TEXT);
    expect(after.root).toBe(before.root);
    expect(placesOf(after)).toEqual(placesOf(readTree(text)));
    // The blocks are those that are written, for whoever looks for comments.
    expect(after.blocks.map((block) => block.text).join('')).toBe(text);
  });

  it('speaks as it is written while the text has lines that are no YAML', () => {
    const commented = TEXT.replace('8,  c2', '8, # scale\n      c2');
    const moved = readTree(commented, readTree(TEXT));
    expect(moved.moved.size).toBe(1);
    const faulty = commented.replace('  drive:', ' \tdrive:');
    const after = readTree(faulty, moved);
    expect(placesOf(after)).toEqual(placesOf(readTree(faulty)));
    expect(placesOf(readTree(commented, after))).toEqual(placesOf(readTree(commented)));
  });

  it.each([
    ['a word', 'c1: 8', 'c1: 16'],
    ['a quote', 'at: cabinet', 'at: "cabinet"'],
    ['what a hash makes of a word', 'at: cabinet }', 'at: cabinet#}'],
    ['an entry that is cut off', 'c3: [x, y] }', '# c3: [x, y] }'],
  ])('does not, where %s is another', (_, from, to) => {
    const before = readTree(TEXT);
    const text = TEXT.replace(from, to);
    const after = readTree(text, before);
    expect(after.root).not.toBe(before.root);
    expect(placesOf(after)).toEqual(placesOf(readTree(text)));
  });

  it('is the only one whose places are told anew', () => {
    const before = readTree(TEXT);
    const after = readTree(TEXT.replace('cabinet }', 'cabinet } # dry'), before);
    expect(after.moved.size).toBe(1);
    expect(readTree(TEXT.replace('cabinet }', 'cupboard } # dry'), after).moved.size).toBe(0);
  });

  it('finds what an offset stands in, as it is written', () => {
    const text = TEXT.replace('c1: 8,', 'c1: 8, # scale of the axis');
    const after = readTree(text, readTree(TEXT));
    const at = text.indexOf('scale');
    const span = spanAt(after, at, at + 5);
    expect(span?.block.text.slice(span.from, span.to)).toBe('scale');
    expect(span && rangeOf(after, span)).toEqual({ from: at, to: at + 5 });
  });

  it('stands where a text read afresh has it, after any edits of blanks and comments', () => {
    let kept = 0;
    const edits = fc.array(
      fc.tuple(
        fc.nat(400),
        fc.constantFrom(' ', '   ', ' # n', ' # n\n      ', '#', '\n', '\n    # n\n', '7'),
      ),
      { minLength: 1, maxLength: 8 },
    );
    fc.assert(
      fc.property(edits, (list) => {
        let text = TEXT;
        let tree = readTree(text);
        for (const [at, typed] of list) {
          const place = at % text.length;
          text = text.slice(0, place) + typed + text.slice(place);
          tree = readTree(text, tree);
          if (tree.moved.size > 0) kept += 1;
          const fresh = readTree(text);
          expect(placesOf(tree)).toEqual(placesOf(fresh));
          expect(nodesOf(tree.root).map(wordOf)).toEqual(nodesOf(fresh.root).map(wordOf));
          expect(tree.problems.map(({ code, at: where }) => [code, rangeOf(tree, where)])).toEqual(
            fresh.problems.map(({ code, at: where }) => [code, rangeOf(fresh, where)]),
          );
        }
      }),
      { numRuns: 400 },
    );
    expect(kept).toBeGreaterThan(300);
  });
});

const wordOf = (node: Node): string => (node.kind === 'scalar' ? node.text : node.kind);
