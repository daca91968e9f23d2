import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCsv, writeCsv } from '../../server/core/csv.ts';

const fieldsOf = (text: string) => {
  const read = readCsv(text);
  return read.kind === 'table' ? read.rows.map(({ fields }) => fields) : read;
};

// The rules of RFC 4180, section 2, by their numbers.
describe('RFC 4180', () => {
  test.each([
    [
      '1: records end with CR LF',
      'aaa,bbb\r\nccc,ddd\r\n',
      [
        ['aaa', 'bbb'],
        ['ccc', 'ddd'],
      ],
    ],
    [
      '2: the last line end may be missing',
      'aaa,bbb\r\nccc,ddd',
      [
        ['aaa', 'bbb'],
        ['ccc', 'ddd'],
      ],
    ],
    ['4: spaces belong to the field', 'aaa, bbb \r\n', [['aaa', ' bbb ']]],
    ['5: fields may stand in quotes', '"aaa","bbb"\r\n', [['aaa', 'bbb']]],
    [
      '6: commas and line ends in quotes',
      '"a\r\naa","b,bb"\r\nccc,ddd',
      [
        ['a\r\naa', 'b,bb'],
        ['ccc', 'ddd'],
      ],
    ],
    ['7: a quote is doubled', '"aaa","b""bb"\r\n', [['aaa', 'b"bb']]],
  ])('rule %s', (_, text, rows) => {
    expect(fieldsOf(text)).toEqual(rows);
  });
});

test('whatever is written is read again', () => {
  const field = fc.oneof(fc.string(), fc.constantFrom('"', ',', '\r\n', '\n', ';', 'a"b', ''));
  const table = fc.array(fc.array(field, { minLength: 2, maxLength: 4 }), { minLength: 1 });
  fc.assert(
    fc.property(table, (rows) => {
      // Only a mark in front of everything is taken for one; the separator is told by the first line's comma.
      const safe = [['setting', 'value'], ...rows];
      expect(fieldsOf(writeCsv(safe))).toEqual(safe);
    }),
  );
});

test.each([
  ['a byte order mark', '\ufeffP21,320\n', [['P21', '320']]],
  [
    'LF and CR as line ends',
    'a,1\nb,2\rc,3',
    [
      ['a', '1'],
      ['b', '2'],
      ['c', '3'],
    ],
  ],
  ['semicolons', 'a;1,5\nb;2\n', [['a;1', '5'], ['b;2']]],
  [
    'semicolons where the first line has no comma',
    'a;1\nb;2,5\n',
    [
      ['a', '1'],
      ['b', '2,5'],
    ],
  ],
  ['tabs', 'a\t1\n', [['a', '1']]],
  ['empty lines', '\n\na,1\n\n', [['a', '1']]],
  ['nothing', '', []],
])('%s', (_, text, rows) => {
  expect(fieldsOf(text)).toEqual(rows);
});

test('lines are counted, and a quote that is never closed has one', () => {
  expect(readCsv('"a\nb",1\n\nc,2')).toEqual({
    kind: 'table',
    rows: [
      { line: 1, fields: ['a\nb', '1'] },
      { line: 4, fields: ['c', '2'] },
    ],
  });
  expect(readCsv('a,1\nb,"2\n')).toEqual({ kind: 'unclosed', line: 2 });
});
