import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ATOMS, PREFIXES } from '../../../server/core/units/atoms.ts';
import {
  DIMENSIONS,
  type DimensionName,
  findUnit,
  formatBest,
  formatNumber,
  formatQuantity,
  fromSi,
  listUnits,
  multiplyDimensions,
  nameDimension,
  nearestUnits,
  sameDimension,
  toSi,
  toUnit,
} from '../../../server/core/units/index.ts';

describe('the table of units', () => {
  it('spells no two units the same', () => {
    const spellings = ATOMS.flatMap((atom) => [
      atom.symbol,
      ...atom.prefixes.split('').map((p) => p + atom.symbol),
    ]);
    expect(new Set(spellings).size).toBe(spellings.length);
  });
  it('uses known prefixes only', () => {
    expect(
      ATOMS.flatMap((atom) => atom.prefixes.split('')).filter((prefix) => !PREFIXES.has(prefix)),
    ).toEqual([]);
  });
  it('gives every unit a source', () => {
    expect(ATOMS.filter((atom) => atom.source === '')).toEqual([]);
  });
  it('has a unit for every dimension of the format', () => {
    const names = Object.keys(DIMENSIONS) as DimensionName[];
    expect(names.filter((name) => listUnits(name).length === 0)).toEqual([]);
  });
});

describe('units', () => {
  it.each<[string, DimensionName, number, string]>([
    ['mm', 'length', 1e-3, 'millimetre'],
    ['mm2', 'area', 1e-6, 'square millimetre'],
    ['kg', 'mass', 1, 'kilogram'],
    ['mm/s2', 'acceleration', 1e-3, 'millimetre per second squared'],
    ['mm/min', 'speed', 1e-3 / 60, 'millimetre per minute'],
    ['/mm', 'per-length', 1e3, 'per millimetre'],
    ['/deg', 'per-angle', 180 / Math.PI, 'per degree'],
    ['N.cm', 'torque', 1e-2, 'newton centimetre'],
    ['kg.mm2', 'inertia', 1e-6, 'kilogram square millimetre'],
    ['g.cm2', 'inertia', 1e-7, 'gram square centimetre'],
    ['rev/s', 'angular-speed', 2 * Math.PI, 'revolution per second'],
    ['deg/s2', 'angular-acceleration', Math.PI / 180, 'degree per second squared'],
    ['kohm', 'resistance', 1e3, 'kiloohm'],
    ['V/A', 'resistance', 1, 'volt per ampere'],
    ['A.ohm', 'voltage', 1, 'ampere ohm'],
    ['N/mm2', 'pressure', 1e6, 'newton per square millimetre'],
    ['uF', 'capacitance', 1e-6, 'microfarad'],
    ['ppm', 'share', 1e-6, 'part per million'],
  ])('%s', (symbol, dimension, factor, name) => {
    const unit = findUnit(symbol);
    expect(unit?.dimension).toEqual([...DIMENSIONS[dimension]]);
    expect((unit?.factor ?? 0) / factor).toBeCloseTo(1, 14);
    expect(unit?.name).toBe(name);
  });

  it.each([
    '',
    '/',
    'mm/',
    'mm//s',
    'mm/s/s',
    'm.',
    '.m',
    'mm 2',
    'mm4',
    'mm-2',
    'q',
    'kin',
    'M',
    '1',
    'm.m.m.m.m',
  ])('does not take %j for a unit', (text) => expect(findUnit(text)).toBeUndefined());

  it('keeps angle apart, so that rpm is no Hz', () => {
    const [rpm, hertz] = [findUnit('rpm'), findUnit('Hz')];
    expect(rpm && hertz && sameDimension(rpm.dimension, hertz.dimension)).toBe(false);
    expect(findUnit('rev/min')?.factor).toBeCloseTo(rpm?.factor ?? 0, 15);
  });

  it('explains a unit for a hover', () => {
    expect(findUnit('in')?.definition).toBe('1 in = 25.4 mm exactly');
    expect(findUnit('mm')?.definition).toBe('1 mm = 0.001 m');
    expect(findUnit('ozf.in')?.definition).toBe(
      '1 ozf.in = 0.00706155181422604 N.m (1 ozf = 1/16 lbf exactly; 1 in = 25.4 mm exactly)',
    );
    expect(findUnit('hp')?.name).toBe('mechanical horsepower');
  });

  it('suggests units that are near', () => {
    expect(nearestUnits('milimetre').map((unit) => unit.symbol)).toEqual(['mm']);
    expect(nearestUnits('sec').map((unit) => unit.symbol)).toEqual(['s']);
    expect(nearestUnits('ma', 'current').map((unit) => unit.symbol)).toEqual(['mA']);
    expect(nearestUnits('Nm', 'torque').map((unit) => unit.symbol)).toEqual(['N.m']);
    expect(nearestUnits('zebra')).toEqual([]);
  });

  const units = (Object.keys(DIMENSIONS) as DimensionName[]).flatMap(listUnits);
  const someUnit = fc.constantFrom(...units).map((symbol) => findUnit(symbol));

  it('converts there and back', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), someUnit, (number, unit) => {
        if (unit === undefined) throw new Error('a listed unit is unknown');
        // An offset such as 273.15 costs the digits by which it is greater than the number.
        const tolerance = 1e-14 * (number + Math.abs(unit.zero / unit.factor));
        expect(Math.abs(fromSi(toSi(number, unit), unit) - number)).toBeLessThanOrEqual(tolerance);
      }),
    );
  });

  it('multiplies and divides dimensions and factors alike', () => {
    const factors = units.filter((symbol) => /^[A-Za-z]+$/.test(symbol) && !symbol.startsWith('deg'));
    fc.assert(
      fc.property(fc.constantFrom(...factors), fc.constantFrom(...factors), (a, b) => {
        const [left, right] = [findUnit(a), findUnit(b)];
        const [product, quotient] = [findUnit(`${a}.${b}`), findUnit(`${a}/${b}`)];
        if (!left || !right || !product || !quotient) throw new Error(`${a} and ${b} do not combine`);
        expect(product.dimension).toEqual(multiplyDimensions(left.dimension, right.dimension));
        expect(quotient.dimension).toEqual(multiplyDimensions(left.dimension, right.dimension, -1));
        expect(product.factor / (left.factor * right.factor)).toBeCloseTo(1, 14);
        expect((quotient.factor * right.factor) / left.factor).toBeCloseTo(1, 14);
      }),
    );
  });

  it('finds or refuses any text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(...'mskgNV./23²µ°·'.split('')) })),
        (text) => {
          const unit = findUnit(text);
          if (unit !== undefined) expect(findUnit(unit.symbol)).toEqual(unit);
          expect(nearestUnits(text).length).toBeLessThanOrEqual(3);
        },
      ),
    );
  });
});

describe('dimensions in words', () => {
  it.each<[DimensionName, string]>([
    ['length', 'a length'],
    ['voltage', 'a voltage'],
    ['angular-speed', 'a speed of rotation'],
    ['per-length', 'a number per length'],
  ])('%s', (name, words) => expect(nameDimension(DIMENSIONS[name])).toBe(words));
  it('names one that has no name by its unit', () => {
    expect(nameDimension(findUnit('mm/rev')?.dimension ?? DIMENSIONS.number)).toBe('a quantity in m/rad');
  });
});

describe('printing', () => {
  it.each<[number, string]>([
    [251.96850393700788, '251.969'],
    [3000, '3000'],
    [1234567, '1234567'],
    [1234567.8, '1234570'],
    [0.1 + 0.2, '0.3'],
    [1e-4, '0.0001'],
    [1.5e-5, '1.5e-5'],
    [1e7, '10000000'],
    [12345678, '1.23457e7'],
    [-0, '0'],
    [-2.5, '-2.5'],
    [Number.NaN, '?'],
    [Number.POSITIVE_INFINITY, '?'],
  ])('%d', (number, text) => expect(formatNumber(number)).toBe(text));

  it.each<[number, DimensionName, string]>([
    [5e-7, 'time', '500 ns'],
    [0.9999999e-3, 'time', '1 ms'],
    [90, 'time', '90 s'],
    [0, 'time', '0 s'],
    [2e-10, 'time', '0.2 ns'],
    [4700, 'resistance', '4.7 kohm'],
    [0.0003, 'current', '300 uA'],
    [-0.25, 'voltage', '-250 mV'],
    [0.05, 'speed', '3000 mm/min'],
    [Math.PI / 2, 'angle', '90 deg'],
    [0.15, 'share', '15 %'],
    [0.02, 'number', '0.02'],
    [293.15, 'temperature', '20 degC'],
  ])('%d as %s', (value, dimension, text) => expect(formatBest(value, dimension)).toBe(text));

  it('prints in a unit that is asked for', () => {
    expect(formatQuantity(0.00635, 'in')).toBe('0.25 in');
    expect(formatQuantity(32000000 / 127, '/mm', 9)).toBe('251.968504 /mm');
    expect(formatQuantity(2, '')).toBe('2');
    expect(formatQuantity(2, 'furlong')).toBe('2 (in SI units)');
    expect(toUnit(0.005, 'mm')).toBe(5);
    expect(toUnit(5, '1')).toBe(5);
    expect(toUnit(5, 'furlong')).toBeNaN();
  });

  it('never prints an exponent from 1e-4 to 1e7, and keeps six digits', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 1e7, noNaN: true }), (number) => {
        const text = formatNumber(number);
        expect(text).toMatch(/^\d+(\.\d*[1-9])?$/);
        expect(Math.abs(Number(text) / number - 1)).toBeLessThanOrEqual(5e-6);
      }),
    );
  });
});
