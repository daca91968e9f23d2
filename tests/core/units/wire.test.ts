import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readColour, readRatio, readWire } from '../../../server/core/units/index.ts';
import { readMarked } from './marks.ts';

describe('wires', () => {
  it.each<[string, object]>([
    ['4 x 0.75 mm2 screened', { cores: 4, area: 7.5e-7, gauge: '0.75 mm2', screened: true }],
    ['0.25 mm2 YE', { cores: 1, area: 2.5e-7, gauge: '0.25 mm2', screened: false, colour: 'YE' }],
    ['0.25mm² gnye', { gauge: '0.25 mm2', colour: 'GNYE' }],
    ['2×0.5 mm2', { cores: 2, area: 5e-7 }],
    ['18 AWG WH-BU', { gauge: '18 AWG', colour: 'WHBU' }],
    ['AWG 20', { gauge: '20 AWG', cores: 1 }],
    ['20awg', { gauge: '20 AWG' }],
    ['4/0 AWG', { gauge: '4/0 AWG' }],
    ['4 x 20 AWG screened BN', { cores: 4, gauge: '20 AWG', screened: true, colour: 'BN' }],
  ])('%s', (text, wire) => {
    const { value, problems } = readWire(text);
    expect(problems).toEqual([]);
    expect(value).toMatchObject(wire);
  });

  it.each<[string, string, readonly string[]]>([
    ['‹0.75›', 'unit/missing', ['0.75 mm2']],
    ['‹20›', 'unit/missing', ['20 AWG', '20 mm2']],
    ['‹2›', 'unit/missing', ['2 mm2', '2 AWG']],
    ['‹0.5› YE', 'unit/missing', ['0.5 mm2 YE']],
    ['4 x ‹0.75› screened', 'unit/missing', ['4 x 0.75 mm2 screened']],
    ['4 x 0.75 ‹mm› screened', 'unit/wrong-dimension', ['4 x 0.75 mm2 screened']],
    ['4 x ‹0,75› mm2', 'unit/comma-decimal', ['4 x 0.75 mm2']],
    ['‹300 mm2›', 'unit/implausible', []],
    ['0.75 mm2 ‹shielded›', 'unit/not-a-quantity', ['0.75 mm2 screened']],
    ['0.75mm2 ‹yellow›', 'unit/not-a-quantity', ['0.75mm2 YE']],
    ['0.75 mm2 BN ‹BU›', 'unit/not-a-quantity', []],
    ['0.75 mm2 screened ‹screened›', 'unit/not-a-quantity', []],
    ['‹50 AWG›', 'unit/not-a-quantity', []],
    ['‹0› x 1 mm2', 'unit/not-a-quantity', []],
    ['‹thick›', 'unit/not-a-quantity', []],
    ['‹4 x›', 'unit/not-a-quantity', []],
    ['‹›', 'unit/not-a-quantity', []],
  ])('%s', (marked, code, repaired) =>
    expect(readMarked(marked, readWire)).toMatchObject({ marked, code, repaired }),
  );
});

describe('ratios', () => {
  it('reads both sides', () => {
    expect(readRatio('90:1').value).toEqual({ left: 90, right: 1 });
    expect(readRatio(' 2.5 : 1 ').value).toEqual({ left: 2.5, right: 1 });
  });
  it.each<[string, string, readonly string[]]>([
    ['‹90›', 'half-ratio', ['90:1']],
    ['‹0:1›', 'not-positive', []],
    ['‹-2:1›', 'not-positive', []],
    ['‹1e200:1e-200›', 'not-positive', []],
    ['‹1e-200:1e200›', 'not-positive', []],
    ['‹1:2:3›', 'no-ratio', []],
    ['‹90:›', 'no-ratio', []],
    ['‹1:1e-300e›', 'no-ratio', []],
    ['‹1e999:1›', 'no-ratio', []],
    ['‹fast›', 'no-ratio', []],
  ])('%s', (marked, reason, repaired) => {
    expect(readMarked(marked, readRatio)).toMatchObject({
      marked,
      code: 'unit/not-a-quantity',
      reason,
      repaired,
    });
  });
});

describe('colours', () => {
  it.each<[string, string]>([
    ['‹brown›', 'BN'],
    ['‹BRN›', 'BN'],
    ['‹wht›', 'WH'],
    ['‹RED›', 'RD'],
    ['‹gray›', 'GY'],
    ['‹yelow›', 'YE'],
    ['‹green-yellow›', 'GNYE'],
  ])('offers the code for %s', (marked, code) => {
    expect(readMarked(marked, readColour)).toMatchObject({ marked, reason: 'no-colour', repaired: [code] });
  });
  it.each(['XX', 'BNBN', 'B', '', 'BKBNRDOG', 'BN BU'])('offers nothing for %j', (text) => {
    expect(readColour(text)).toMatchObject({ problems: [{ repairs: [] }] });
  });
  it('draws every colour of a conductor', () => {
    expect(readColour('WHBU').value).toMatchObject({
      name: 'white-blue',
      shades: [/#/, /#/].map(() => expect.stringMatching(/^#[\da-f]{6}$/)),
    });
  });
});

describe('any text', () => {
  const soup = fc.string({
    unit: fc.constantFrom(...'0123456789.,x× AWGmM2²/:-BNUYEscreened'.split('')),
    maxLength: 30,
  });
  it.each([
    ['wire', readWire],
    ['ratio', readRatio],
    ['colour', readColour],
  ] as const)('is a %s or a problem', (_, read) => {
    fc.assert(
      fc.property(fc.oneof(soup, fc.string({ unit: 'binary', maxLength: 250 })), (text) => {
        const { value, problems } = read(text);
        expect(value !== undefined || problems.length === 1).toBe(true);
        for (const { from, to } of problems) expect(0 <= from && from <= to && to <= text.length).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});
