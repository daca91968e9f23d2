import { expect, test } from 'vitest';
import { analyseTexts } from '../support/marked.ts';
import { readPageExamples } from '../support/page-examples.ts';

/* Examples of the pages with other figures or more parts, where that changes what is said. */

/** What a page's first wrong example is told by its own code, after changes to its texts. */
function said(code: string, change: (text: string) => string): readonly string[] {
  const example = readPageExamples({ code }).find(({ kind }) => kind === 'wrong');
  const texts = [...(example?.texts ?? [])];
  const changed = texts.map(([name, text]) => [name, change(text)] as const);
  expect(changed).not.toEqual(texts);
  return analyseTexts(new Map(changed))
    .findings.filter((finding) => finding.code === code)
    .map(({ message }) => message);
}

test('mains that suit none of two parts are one mistake, which names both and what the first one takes', () => {
  const second = (text: string) =>
    text
      .replace(/^( +)psu(: .*\n)/m, '$1psu$2$1other$2')
      .replace(/^( +- mains\.\w+ -> )psu(\.\w+)/gm, '$1psu$2, other$2');
  expect(said('power/mains-outside', second)).toEqual([
    expect.stringContaining('The mains give psu and other 230 V, and psu takes 100..120 V.'),
  ]);
});

test('a scale that can be set no nearer to what the measurement wants is not corrected', () => {
  // 160 pulses per mm × 500 / 499.62 = 160.122
  const withDecimals = (decimals: number) => (text: string) =>
    text.replace('160.000', (160).toFixed(decimals)).replace('decimals: 3', `decimals: ${decimals}`);
  expect(said('record/correction', withDecimals(0))).toEqual([]);
  expect(said('record/correction', withDecimals(1))).toEqual([
    expect.stringContaining('Set P21 of panel from 160.0 /mm to 160.1 /mm.'),
  ]);
});

test.each([
  ['0.5 mm2', 'K1'],
  ['0.25 mm2', 'K2'],
  ['1 mm2', 'K1'],
])(
  'of two wires without a fuse the thinner one is told, or the first: with a second one of %s it is %s',
  (size, told) => {
    const second = (text: string) =>
      text
        .replace(/^( +)fan(: .*\n)/m, '$1fan$2$1other$2')
        .concat(
          `  - cable: K2\n    wire: 2 x ${size}\n    length: 1 m\n    links:\n      - psu.V+ -> other.V+\n      - psu.V- -> other.V-\n`,
        );
    expect(said('wire/no-fuse', second)).toEqual([expect.stringContaining(`A core of cable ${told} `)]);
  },
);
