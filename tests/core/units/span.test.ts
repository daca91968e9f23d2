import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Expectation, readSpan, readSpanOrQuantity } from '../../../server/core/units/index.ts';
import { readMarked } from './marks.ts';

const VOLTS: Expectation = { dimension: 'voltage', units: ['V', 'mV'], plausible: ['-60 V', '500 V'] };
const AMPS: Expectation = { dimension: 'current', units: ['A', 'mA'] };
const NUMBER: Expectation = { dimension: 'number', units: [] };

describe('spans', () => {
  it.each<[string, Expectation, number, number]>([
    ['18..32 V', VOLTS, 18, 32],
    ['18 V..32 V', VOLTS, 18, 32],
    ['18 .. 32 V', VOLTS, 18, 32],
    ['500 mV..32 V', VOLTS, 0.5, 32],
    ['0.5..1.2 mA', AMPS, 0.0005, 0.0012],
    ['-10..10 V', VOLTS, -10, 10],
    ['5..5 V', VOLTS, 5, 5],
    ['1..64', NUMBER, 1, 64],
  ])('%s', (text, expectation, least, most) => {
    const { value, problems } = readSpan(text, expectation);
    expect(problems).toEqual([]);
    expect([value?.least.value, value?.most.value]).toEqual([least, most]);
  });

  it.each<[string, string, string | undefined, readonly string[]]>([
    ['‹32..18 V›', 'unit/span-upside-down', undefined, ['18..32 V']],
    ['‹32 V..18 V›', 'unit/span-upside-down', undefined, ['18 V..32 V']],
    ['‹32 V..500 mV›', 'unit/span-upside-down', undefined, ['500 mV..32 V']],
    ['‹18..32›', 'unit/missing', undefined, ['18..32 V', '18..32 mV']],
    ['18 mV..‹32›', 'unit/missing', undefined, ['18 mV..32 mV', '18 mV..32 V']],
    ['18..32 ‹mm›', 'unit/wrong-dimension', undefined, []],
    ['18 ‹mm›..32 V', 'unit/wrong-dimension', undefined, []],
    ['18..32 ‹v›', 'unit/prefix-case', undefined, ['18..32 V']],
    ['‹18..900 V›', 'unit/implausible', undefined, ['18..900 mV']],
    ['‹18 V..900 V›', 'unit/implausible', undefined, []],
    ['18..‹32,5› V', 'unit/comma-decimal', undefined, ['18..32.5 V']],
    ['‹18,5›..32 V', 'unit/comma-decimal', undefined, ['18.5..32 V']],
    ['‹18-32 V›', 'unit/not-a-quantity', 'span-sign', ['18..32 V']],
    ['‹18 to 32 V›', 'unit/not-a-quantity', 'span-sign', ['18..32 V']],
    ['‹18…32 V›', 'unit/not-a-quantity', 'span-sign', ['18..32 V']],
    ['‹18...32 V›', 'unit/not-a-quantity', 'span-sign', ['18..32 V']],
    ['‹18 V›', 'unit/not-a-quantity', 'no-span', []],
    ['‹wide›', 'unit/not-a-quantity', 'no-span', []],
    ['  ‹wide›  ', 'unit/not-a-quantity', 'no-span', []],
    ['‹18-32 V\nor so›', 'unit/not-a-quantity', 'no-span', []],
    ['  ‹18-32 V› ', 'unit/not-a-quantity', 'span-sign', ['  18..32 V ']],
    ['18..‹›', 'unit/not-a-quantity', 'empty', []],
  ])('%s', (marked, code, reason, repaired) => {
    const result = readMarked(marked, (text) => readSpan(text, VOLTS));
    expect(result).toMatchObject({ marked, code, reason, repaired });
  });

  it('keeps the value of an implausible span only', () => {
    expect(readSpan('18..900 V', VOLTS).value?.most.value).toBe(900);
    expect(readSpan('32..18 V', VOLTS).value).toBeUndefined();
  });

  it('takes a single quantity for a span of one point where either is allowed', () => {
    const { value } = readSpanOrQuantity('24 V', VOLTS);
    expect([value?.least.value, value?.most.value]).toEqual([24, 24]);
    expect(readSpanOrQuantity('18..32 V', VOLTS).value?.most.value).toBe(32);
    expect(readSpanOrQuantity('1e-3 V', VOLTS).value?.least.value).toBe(0.001);
    expect(readSpanOrQuantity('24', VOLTS).problems[0]?.code).toBe('unit/missing');
    expect(readSpanOrQuantity('18-32 V', VOLTS).problems[0]?.data.reason).toBe('span-sign');
  });

  it('reads any text, and never upside-down', () => {
    const soup = fc.string({
      unit: fc.constantFrom(...'0123456789..,-+eE VmA−…~to'.split('')),
      maxLength: 30,
    });
    fc.assert(
      fc.property(fc.oneof(soup, fc.string({ unit: 'binary' })), (text) => {
        for (const { value, problems } of [readSpan(text, VOLTS), readSpanOrQuantity(text, VOLTS)]) {
          expect(value !== undefined || problems.length === 1).toBe(true);
          if (value !== undefined) expect(value.least.value).toBeLessThanOrEqual(value.most.value);
          for (const { from, to } of problems)
            expect(0 <= from && from <= to && to <= text.length).toBe(true);
        }
      }),
      { numRuns: 3000 },
    );
  });
});
