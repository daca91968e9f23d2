import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCursor } from '../../../server/core/features/cursor.ts';

/** Reads the cursor's context at the mark `§`. */
function at(marked: string) {
  const offset = marked.indexOf('§');
  const { path, wants, typed, siblings } = readCursor(marked.replace('§', ''), offset);
  return { path: path.join(' '), wants, typed, siblings: [...siblings].sort().join(' ') };
}

describe('what a cursor asks for', () => {
  test.each<[string, string, { path: string; wants: string; typed: string; siblings: string }]>([
    [
      'a new section',
      'machine: A\n§\nparts:\n',
      { path: '', wants: 'key', typed: '', siblings: 'machine parts' },
    ],
    ['half a section', 'machine: A\npa§', { path: '', wants: 'key', typed: 'pa', siblings: 'machine' }],
    ['the value of a key', 'machine: §', { path: 'machine', wants: 'value', typed: '', siblings: '' }],
    [
      'a key of a block map',
      'axes:\n  X:\n    travel: 1 mm\n    §\n    feed: 2 mm/min\n',
      { path: 'axes X', wants: 'key', typed: '', siblings: 'feed travel' },
    ],
    [
      'an entry of a section',
      'axes:\n  X:\n    travel: 1 mm\n  §\n',
      { path: 'axes', wants: 'key', typed: '', siblings: 'X' },
    ],
    [
      'the value in a block map',
      'axes:\n  X:\n    travel: 12 §\n',
      { path: 'axes X travel', wants: 'value', typed: '12 ', siblings: '' },
    ],
    [
      'a key of a flow map',
      'parts:\n  a: { sheet: x, § }\n',
      { path: 'parts a', wants: 'key', typed: '', siblings: 'sheet' },
    ],
    [
      'a value of a flow map',
      'parts:\n  a: { sheet: gen§ }\n',
      { path: 'parts a sheet', wants: 'value', typed: 'gen', siblings: 'sheet' },
    ],
    [
      'a key of a flow map in a flow map',
      'parts:\n  a: { sheet: x, set: { P1: 2, P§ } }\n',
      { path: 'parts a set', wants: 'key', typed: 'P', siblings: 'P1' },
    ],
    [
      'a flow map over several lines',
      'parts:\n  a: {\n    sheet: x,\n    § }\n',
      { path: 'parts a', wants: 'key', typed: '', siblings: 'sheet' },
    ],
    [
      'an unclosed flow map',
      'parts:\n  a: { sheet: x, se§\n  b: { sheet: y }\n',
      { path: 'parts a', wants: 'key', typed: 'se', siblings: 'sheet' },
    ],
    ['a new link', 'wiring:\n  - §\n', { path: 'wiring -', wants: 'key', typed: '', siblings: '' }],
    [
      'half a link',
      'wiring:\n  - a.b -> c.§\n',
      { path: 'wiring -', wants: 'value', typed: 'a.b -> c.', siblings: '' },
    ],
    [
      'a list as far out as its key',
      'wiring:\n- a.b -> §\n',
      { path: 'wiring -', wants: 'value', typed: 'a.b -> ', siblings: '' },
    ],
    [
      'a key of an item',
      'wiring:\n  - cable: K1\n    §\n',
      { path: 'wiring -', wants: 'key', typed: '', siblings: 'cable' },
    ],
    [
      'a link in a cable',
      'wiring:\n  - cable: K1\n    links:\n      - a.§\n',
      { path: 'wiring - links -', wants: 'value', typed: 'a.', siblings: '' },
    ],
    [
      'a link in a flow item',
      'wiring:\n  - { link: a.b -> §, wire: x }\n',
      { path: 'wiring - link', wants: 'value', typed: 'a.b -> ', siblings: 'link wire' },
    ],
    [
      'an item of a flow list',
      'axes:\n  Y: { drive: [a, §] }\n',
      { path: 'axes Y drive -', wants: 'value', typed: '', siblings: '' },
    ],
    [
      'quotes and comments hold no brackets',
      'parts:\n  a: { about: "{ [", § } # {\n',
      { path: 'parts a', wants: 'key', typed: '', siblings: 'about' },
    ],
  ])('%s', (_, marked, expected) => {
    expect(at(marked)).toEqual(expected);
  });

  test('any cursor in any text gives an answer, with what was typed before it', () => {
    const text = fc.string({
      unit: fc.constantFrom('a', ':', ' ', '\n', '-', '{', '}', '[', ']', '"', '#', ',', '\r', '.', '>'),
      maxLength: 120,
    });
    fc.assert(
      fc.property(text, fc.nat(120), (given, place) => {
        const offset = Math.min(place, given.length);
        const cursor = readCursor(given, offset);
        expect(given.slice(cursor.from, offset)).toBe(cursor.typed);
      }),
      { numRuns: 2000 },
    );
  });
});
