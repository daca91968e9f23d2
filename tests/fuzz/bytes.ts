import fc from 'fast-check';
import type { TextCase } from './case.ts';
import { SMALL } from './corpus.ts';
import { examine } from './examine.ts';
import type { Target } from './target.ts';

/** Signs that end or begin something in YAML, in UTF-16 or on a terminal, and halves of them. */
const ODD = [
  '\0',
  '\u0007',
  '\u0085',
  '\u00a0',
  '\u00ad',
  '\u200b',
  '\u202e',
  '\u2028',
  '\u2029',
  '\ud800',
  '\udfff',
  '\ufeff',
  '\ufffe',
  '\uffff',
  '\u{1f6e0}',
  '\r',
  '\r\n',
  '\n',
  '\t',
  '\v',
  '\f',
  '\x1b[2J',
];

const bytes = fc.uint8Array({ maxLength: 200 });
const decoded = fc
  .tuple(bytes, fc.constantFrom('utf8', 'latin1', 'utf16le'))
  .map(([array, encoding]) => Buffer.from(array).toString(encoding as BufferEncoding));
const units = fc
  .array(fc.integer({ min: 0, max: 0xffff }), { maxLength: 120 })
  .map((codes) => String.fromCharCode(...codes));
const ascii = fc.string({
  unit: fc.constantFrom(...':{}[],&*!|>\'"%@`#-?~<=. \n\r\tab01XY->\\'.split('')),
  maxLength: 160,
});
const odd = fc
  .array(fc.oneof(fc.constantFrom(...ODD), fc.constantFrom('a', ': ', '- ', 'parts', '1 mm')), {
    maxLength: 60,
  })
  .map((list) => list.join(''));

/** A definition with a stretch of anything in place of one of its own. */
const spliced = fc
  .record({
    start: fc.constantFrom(...SMALL),
    at: fc.double({ min: 0, max: 1, noNaN: true }),
    cut: fc.integer({ min: 0, max: 40 }),
    put: fc.oneof(decoded, units, ascii, odd),
  })
  .map(({ start: { text }, at, cut, put }) => {
    const place = Math.round(at * text.length);
    return text.slice(0, place) + put + text.slice(place + cut);
  });

/** Any bytes, as a reader of files or an editor hands them over. */
export const bytesTarget: Target<TextCase> = {
  name: 'bytes',
  about: 'any bytes and code units, alone and within a definition',
  share: 20,
  cases: fc.record({
    file: fc.constantFrom('a.machine.yaml', 'a.machine.yaml', 'a.part.yaml', '.fettle.yaml'),
    versions: fc.oneof(decoded, units, ascii, odd, spliced).map((text) => [text]),
    others: fc.constant({}),
    cursor: fc.double({ min: 0, max: 1, noNaN: true }),
  }),
  check: examine,
  store: (one) => one,
  replay: (stored) => examine(stored as TextCase),
};
