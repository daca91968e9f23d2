import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DIMENSIONS,
  type DimensionName,
  type Expectation,
  formatQuantity,
  listUnits,
  readQuantity,
} from '../../../server/core/units/index.ts';
import { readMarked } from './marks.ts';

const LEAD: Expectation = { dimension: 'time', units: ['ns', 'us', 'ms'], plausible: ['50 ns', '1 ms'] };
const VOLTS: Expectation = { dimension: 'voltage', units: ['V', 'mV'], plausible: ['-60 V', '500 V'] };
const AMPS: Expectation = { dimension: 'current', units: ['A', 'mA'] };
const RATE: Expectation = { dimension: 'frequency', units: ['kHz', 'MHz', 'Hz'] };
const TRAVEL: Expectation = {
  dimension: ['length', 'angle'],
  units: ['mm', 'in', 'deg'],
  plausible: ['0 mm', '20 m'],
};
const LENGTH: Expectation = { dimension: 'length', units: ['mm', 'm', 'in'] };
const SPEED: Expectation = { dimension: 'angular-speed', units: ['rpm'], plausible: ['1 rpm', '100000 rpm'] };
const TORQUE: Expectation = { dimension: 'torque', units: ['N.m', 'ozf.in'] };
const FORCE: Expectation = { dimension: 'force', units: ['N', 'lbf'] };
const SHARE: Expectation = { dimension: 'share', units: ['%'] };
const NUMBER: Expectation = { dimension: 'number', units: [] };
const PULSES: Expectation = { dimension: ['per-length', 'per-angle'], units: ['/mm', '/deg'] };

describe('quantities that are read', () => {
  it.each<[string, Expectation, number, string]>([
    ['24 V', VOLTS, 24, 'V'],
    ['24V', VOLTS, 24, 'V'],
    ['  24\tV ', VOLTS, 24, 'V'],
    ['+5 V', VOLTS, 5, 'V'],
    ['-10 V', VOLTS, -10, 'V'],
    ['500 ns', LEAD, 5e-7, 'ns'],
    ['20000 ns', { ...LEAD }, 2e-5, 'ns'],
    ['20 us', LEAD, 2e-5, 'us'],
    ['20 µs', LEAD, 2e-5, 'us'],
    ['20 μs', LEAD, 2e-5, 'us'],
    ['1e3 mm', LENGTH, 1, 'mm'],
    ['.5 mm', LENGTH, 0.0005, 'mm'],
    ['0.25 in', LENGTH, 0.00635, 'in'],
    ['1 mil', LENGTH, 0.0000254, 'mil'],
    ['90 deg', TRAVEL, Math.PI / 2, 'deg'],
    ['90°', TRAVEL, Math.PI / 2, 'deg'],
    ['3 N·m', TORQUE, 3, 'N.m'],
    ['90 %', SHARE, 0.9, '%'],
    ['320 /mm', PULSES, 320000, '/mm'],
    ['0.02', NUMBER, 0.02, ''],
    ['4.7 kΩ', { dimension: 'resistance', units: [] }, 4700, 'kohm'],
    ['4.7 kΩ', { dimension: 'resistance', units: [] }, 4700, 'kohm'],
    ['500 mm/s²', { dimension: 'acceleration', units: [] }, 0.5, 'mm/s2'],
    ['20 °C', { dimension: 'temperature', units: [] }, 293.15, 'degC'],
    ['5 min', { dimension: 'time', units: [] }, 300, 'min'],
  ])('%s', (text, expectation, value, symbol) => {
    const { value: quantity, problems } = readQuantity(text, expectation);
    expect(problems).toEqual([]);
    expect(quantity?.value).toBeCloseTo(value, 14);
    expect(quantity?.unit.symbol).toBe(symbol);
  });

  it('says where the number and the unit stand', () => {
    const { value } = readQuantity('  6.35  mm ', LENGTH);
    expect(value).toMatchObject({ number: 6.35, numberAt: [2, 6], unitAt: [8, 10], text: '6.35  mm' });
  });

  it('gives the same number for 20 us and 20000 ns', () => {
    expect(readQuantity('20 us', LEAD).value?.value).toBe(readQuantity('20000 ns', LEAD).value?.value);
  });
});

describe('quantities with a problem', () => {
  it.each<[string, Expectation, string, readonly string[]]>([
    ['‹500›', LEAD, 'unit/missing', ['500 ns', '500 us', '500 ms']],
    ['‹5›', LEAD, 'unit/missing', ['5 us', '5 ns', '5 ms']],
    ['‹0.9›', SHARE, 'unit/missing', ['90 %', '0.9 %']],
    ['‹90›', SHARE, 'unit/missing', ['90 %']],
    ['‹500 ms›', LEAD, 'unit/implausible', ['500 us', '500 ns']],
    ['‹3 s›', LEAD, 'unit/implausible', ['3 us']],
    ['‹300 km›', TRAVEL, 'unit/implausible', ['300 in', '300 mm']],
    ['‹900 V›', VOLTS, 'unit/implausible', ['900 mV']],
    ['‹0 s›', LEAD, 'unit/implausible', []],
    ['12 ‹v›', VOLTS, 'unit/prefix-case', ['12 V']],
    ['3 ‹a›', AMPS, 'unit/prefix-case', ['3 A']],
    ['4 ‹Ma›', AMPS, 'unit/prefix-case', ['4 mA']],
    ['4 ‹MA›', AMPS, 'unit/prefix-case', ['4 mA']],
    ['100 ‹mhz›', RATE, 'unit/prefix-case', ['100 MHz']],
    ['100 ‹mHz›', RATE, 'unit/prefix-case', ['100 MHz']],
    ['10 ‹KHz›', RATE, 'unit/prefix-case', ['10 kHz']],
    ['5 ‹MM›', LENGTH, 'unit/prefix-case', ['5 mm']],
    ['1 ‹M›', LENGTH, 'unit/prefix-case', ['1 m']],
    ['5‹MM›', LENGTH, 'unit/prefix-case', ['5mm']],
    ['3000 ‹RPM›', SPEED, 'unit/prefix-case', ['3000 rpm']],
    ['3 ‹n.m›', TORQUE, 'unit/prefix-case', ['3 N.m']],
    ['5 ‹mh›', { dimension: 'inductance', units: ['mH'] }, 'unit/prefix-case', ['5 mH']],
    ['‹1,5› mm', LENGTH, 'unit/comma-decimal', ['1.5 mm']],
    ['‹1,500› mm', LENGTH, 'unit/comma-decimal', ['1.500 mm', '1500 mm']],
    ['‹18,000› rpm', SPEED, 'unit/comma-decimal', ['18.000 rpm', '18000 rpm']],
    ['‹150,000› rpm', SPEED, 'unit/comma-decimal', ['150.000 rpm', '150000 rpm']],
    ['‹40,000› m', TRAVEL, 'unit/comma-decimal', ['40.000 m', '40000 m']],
    ['‹0,500› mm', LENGTH, 'unit/comma-decimal', ['0.500 mm']],
    ['‹1.500,5› mm', LENGTH, 'unit/comma-decimal', ['1500.5 mm']],
    ['‹1,500.5› mm', LENGTH, 'unit/comma-decimal', ['1500.5 mm']],
    ['24 ‹mm›', VOLTS, 'unit/wrong-dimension', []],
    ['150 ‹kg›', FORCE, 'unit/wrong-dimension', ['150 kgf']],
    ['150 ‹g›', FORCE, 'unit/wrong-dimension', ['150 gf']],
    ['33 ‹lb›', FORCE, 'unit/wrong-dimension', ['33 lbf']],
    ['16 ‹oz›', FORCE, 'unit/wrong-dimension', ['16 ozf']],
    ['18 ‹kg.cm›', TORQUE, 'unit/wrong-dimension', ['18 kgf.cm']],
    ['3 ‹nm›', TORQUE, 'unit/wrong-dimension', ['3 N.m']],
    ['9000 ‹/min›', SPEED, 'unit/wrong-dimension', ['9000 rpm']],
    ['5 ‹%›', LENGTH, 'unit/wrong-dimension', []],
    ['3 ‹Nm›', TORQUE, 'unit/unknown', ['3 N.m']],
    ['3 ‹N m›', TORQUE, 'unit/unknown', ['3 N.m']],
    ['200 ‹oz-in›', TORQUE, 'unit/unknown', ['200 ozf.in']],
    ['5 ‹VDC›', VOLTS, 'unit/unknown', ['5 V']],
    ['5 ‹V DC›', VOLTS, 'unit/unknown', ['5 V']],
    ['5 ‹sec›', { dimension: 'time', units: ['s'] }, 'unit/unknown', ['5 s']],
    ['5 ‹mm/sec^2›', { dimension: 'acceleration', units: [] }, 'unit/unknown', ['5 mm/s2']],
    ['5 ‹mm per s›', { dimension: 'speed', units: [] }, 'unit/unknown', ['5 mm/s']],
    ['320 ‹pulses/mm›', PULSES, 'unit/unknown', ['320 /mm']],
    ['50 ‹milimetres›', LENGTH, 'unit/unknown', ['50 mm']],
    ['3 ‹"›', LENGTH, 'unit/unknown', ['3 in']],
    ['20 ‹C›', { dimension: 'temperature', units: [] }, 'unit/unknown', ['20 degC']],
    ['3 ‹furlong›', LENGTH, 'unit/unknown', []],
    ['3 ‹__proto__›', LENGTH, 'unit/unknown', []],
    ['3 ‹constructor›', LENGTH, 'unit/unknown', []],
    ['3 ‹degC/m›', { dimension: 'temperature', units: [] }, 'unit/unknown', ['3 degC']],
    ['‹fast›', LEAD, 'unit/not-a-quantity', []],
    ['‹›', LEAD, 'unit/not-a-quantity', []],
    ['‹V›', VOLTS, 'unit/not-a-quantity', []],
    ['‹NaN›', VOLTS, 'unit/not-a-quantity', []],
    ['‹Infinity V›', VOLTS, 'unit/not-a-quantity', []],
    ['‹1e400› V', VOLTS, 'unit/not-a-quantity', []],
    ['‹1e308› kV', VOLTS, 'unit/not-a-quantity', []],
    ['‹1e-400› V', VOLTS, 'unit/not-a-quantity', []],
    ['‹0x18› V', VOLTS, 'unit/not-a-quantity', []],
    ['‹1.2.3 V›', VOLTS, 'unit/not-a-quantity', []],
    ['‹1_000› mm', LENGTH, 'unit/not-a-quantity', ['1000 mm']],
    ['‹18 000› rpm', SPEED, 'unit/not-a-quantity', ['18000 rpm']],
    ["‹18'000› rpm", SPEED, 'unit/not-a-quantity', ['18000 rpm']],
    ['‹−›5 V', VOLTS, 'unit/not-a-quantity', ['-5 V']],
    ['‹–›5 V', VOLTS, 'unit/not-a-quantity', ['-5 V']],
    ['‹18..32 V›', VOLTS, 'unit/not-a-quantity', []],
  ])('%s', (marked, expectation, code, repaired) => {
    expect(readMarked(marked, (text) => readQuantity(text, expectation))).toMatchObject({
      marked,
      code,
      repaired,
    });
  });

  it('keeps the value of an implausible quantity, and of no other', () => {
    expect(readQuantity('500 ms', LEAD).value?.value).toBe(0.5);
    expect(readQuantity('500', LEAD).value).toBeUndefined();
    expect(readQuantity('4 Ma', AMPS).value).toBeUndefined();
  });

  it('gives messages their figures', () => {
    expect(readQuantity('500 ms', LEAD).problems[0]?.data).toEqual({
      expected: 'a time',
      units: 'ns, us, ms',
      typed: '500 ms',
      reads: '500 ms',
      least: '50 ns',
      most: '1 ms',
      side: 'above',
      times: '500',
    });
    expect(readQuantity('24 mm', VOLTS).problems[0]?.data).toMatchObject({
      is: 'a length',
      expected: 'a voltage',
      units: 'V, mV',
      typed: 'mm',
      name: 'millimetre',
    });
    expect(readQuantity('100 mhz', RATE).problems[0]?.data).toMatchObject({
      meant: 'MHz',
      meaning: 'megahertz',
    });
    expect(readQuantity('5', TRAVEL).problems[0]?.data).toMatchObject({ expected: 'a length or an angle' });
    expect(readQuantity('1,500 mm', LENGTH).problems[0]?.data).toMatchObject({ readings: '1.500, 1500' });
  });

  it('orders the readings of a comma by what is plausible', () => {
    const spindle: Expectation = { ...SPEED, plausible: ['1000 rpm', '60000 rpm'] };
    expect(readQuantity('18,000 rpm', spindle).problems[0]?.repairs.map(({ label }) => label)).toEqual([
      '18000 rpm',
      '18.000 rpm',
    ]);
  });

  it('does not repeat a whole book in a message', () => {
    for (const text of ['9'.repeat(400), `${'9'.repeat(150)} V`, `5 ${'x'.repeat(150)}`, 'z'.repeat(1e6)]) {
      const [problem] = readQuantity(text, VOLTS).problems;
      expect(problem?.code).toMatch(/not-a-quantity|unknown/);
      expect(JSON.stringify(problem?.data).length).toBeLessThan(400);
    }
  });
});

const ALL_UNITS = (Object.keys(DIMENSIONS) as DimensionName[]).flatMap((dimension) =>
  listUnits(dimension).map((symbol) => ({ dimension, symbol })),
);

describe('laws', () => {
  const soup = fc.string({
    unit: fc.constantFrom(...'0123456789.,-+eE_ muMVAHzN/2³°Ω%xX\'"−…\u00a0k'.split('')),
    maxLength: 24,
  });
  const anything = fc.oneof(soup, fc.string({ unit: 'binary', maxLength: 300 }));

  it('any text gives a finite value or a problem, and every place lies in the text', () => {
    fc.assert(
      fc.property(anything, fc.constantFrom(LEAD, VOLTS, TRAVEL, SHARE, NUMBER), (text, expectation) => {
        const { value, problems } = readQuantity(text, expectation);
        expect(value !== undefined || problems.length === 1).toBe(true);
        if (value !== undefined) expect(Number.isFinite(value.value)).toBe(true);
        for (const { from, to, repairs } of problems) {
          for (const place of [{ from, to }, ...repairs]) {
            expect(place.from).toBeGreaterThanOrEqual(0);
            expect(place.to).toBeGreaterThanOrEqual(place.from);
            expect(place.to).toBeLessThanOrEqual(text.length);
          }
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('the number and the unit stand where the reading says', () => {
    const number = fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((each) => String(each));
    const blanks = fc.constantFrom('', ' ', '  ');
    fc.assert(
      fc.property(
        blanks,
        number,
        blanks,
        fc.constantFrom(...ALL_UNITS),
        (before, typed, between, { dimension, symbol }) => {
          const text = before + typed + between + symbol;
          const { value } = readQuantity(text, { dimension, units: [] });
          expect(value && text.slice(...value.numberAt)).toBe(typed);
          expect(value && text.slice(...value.unitAt)).toBe(symbol);
        },
      ),
    );
  });

  it('a quantity that is printed reads back the same', () => {
    const number = fc.double({ min: 1e-9, max: 1e9, noNaN: true });
    fc.assert(
      fc.property(number, fc.constantFrom(...ALL_UNITS), (typed, { dimension, symbol }) => {
        const first = readQuantity(`${typed} ${symbol}`, { dimension, units: [] }).value;
        const printed = formatQuantity(first?.value ?? Number.NaN, symbol, 15);
        const again = readQuantity(printed, { dimension, units: [] }).value;
        expect(again && first && again.value / first.value).toBeCloseTo(1, 12);
        expect(again?.unit.symbol).toBe(symbol);
        // What has been printed once does not change any more.
        expect(formatQuantity(again?.value ?? Number.NaN, symbol, 6)).toBe(
          formatQuantity(first?.value ?? 0, symbol, 6),
        );
      }),
    );
  });

  it('a repair of a missing unit, of a case or of a comma leaves no problem of that kind', () => {
    const expectation: Expectation = { dimension: 'frequency', units: ['kHz', 'MHz', 'Hz'] };
    const unit = fc.constantFrom('', ' mhz', ' KHZ', ' hz', ' kHz', ' ghz');
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 999 }),
        fc.constantFrom('', ',5'),
        unit,
        (whole, part, symbol) => {
          const text = `${whole}${part}${symbol}`;
          for (const { code, repairs } of readQuantity(text, expectation).problems) {
            expect(repairs.length).toBeGreaterThan(0);
            for (const repair of repairs) {
              const repaired = text.slice(0, repair.from) + repair.text + text.slice(repair.to);
              expect(
                readQuantity(repaired, expectation).problems.map((problem) => problem.code),
              ).not.toContain(code);
            }
          }
        },
      ),
    );
  });
});
