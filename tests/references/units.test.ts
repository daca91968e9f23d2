/**
 * Units, wire sizes and colour codes held against published values. Printed values are checked to half a unit of the
 * last printed digit, exact definitions to 1e-12. Sources by key:
 *
 * NIST  NIST Special Publication 811, appendix B.8, as carried by the R package NISTunits 1.0.1
 * TINF  "Tech Info", torque conversion table of a linear-motion catalogue
 * UCUM  The Unified Code for Units of Measure, ucum-essence.xml
 * HYP   HyperPhysics, Georgia State University, "American Wire Gauge" table
 * TOOL  Wire gauge calculator table, a second source for wire resistance
 * IACS  IEC 60028 (1925), resistivity of standard annealed copper, 0.017241 ohm mm2/m
 * C757  IEC 60757 in its identical translation GOST 28763-90, and the preview of IEC 60757:2021
 */
import Qty from 'js-quantities';
import { describe, expect, it } from 'vitest';
import {
  awgArea,
  awgDiameter,
  COLOUR_CODES,
  findUnit,
  fromSi,
  readColour,
  toSi,
} from '../../server/core/units/index.ts';

/** So many of one unit in another; both must be known and of one dimension. */
function convert(number: number, from: string, to: string): number {
  const [source, target] = [findUnit(from), findUnit(to)];
  if (source === undefined || target === undefined) throw new Error(`${from} or ${to} is unknown`);
  expect(source.dimension).toEqual(target.dimension);
  return fromSi(toSi(number, source), target);
}

function expectRelative(actual: number, expected: number, tolerance: number): void {
  expect(Math.abs(actual / expected - 1), `${actual} against ${expected}`).toBeLessThanOrEqual(tolerance);
}

/** Compares to so many units of the last digit printed: half of one for a rounded value. */
function expectPrinted(actual: number, printed: string, units = 0.5): void {
  const [mantissa = '', power = '0'] = printed.split('e');
  const decimals = (mantissa.split('.')[1] ?? '').length - Number(power);
  const tolerance = units * 10 ** -decimals * (1 + 1e-9);
  expect(Math.abs(actual - Number(printed)), `${actual} against ${printed}`).toBeLessThanOrEqual(tolerance);
}

describe('conversion factors (source NIST)', () => {
  const inch = 0.0254;
  const pound = 0.45359237;
  const gravity = 9.80665;
  it.each<[string, string, string, string, number]>([
    ['N137', 'in', 'm', '0.0254', inch],
    ['N139', 'mil', 'm', '2.54e-05', inch / 1000],
    ['N140', 'lbf', 'N', '4.448222', pound * gravity],
    ['N142', 'kgf', 'N', '9.80665', gravity],
    ['N143', 'ozf.in', 'N.m', '0.007061552', (pound / 16) * gravity * inch],
    ['N145', 'lbf.ft', 'N.m', '1.355818', pound * gravity * 12 * inch],
    ['N146', 'kgf.m', 'N.m', '9.80665', gravity],
    ['N148', 'oz', 'kg', '0.02834952', pound / 16],
    ['N149', 'lb.in2', 'kg.m2', '0.0002926397', pound * inch ** 2],
    ['N151', 'PS', 'W', '735.4988', 75 * gravity],
    ['N154', 'deg', 'rad', '0.01745329', Math.PI / 180],
    ['N155', 'rev', 'rad', '6.283185', 2 * Math.PI],
    ['N157', 'psi', 'Pa', '6894.757', (pound * gravity) / inch ** 2],
    ['N158', 'cmil', 'mm2', '0.0005067075', (Math.PI / 4) * (inch ** 2 * 1e-6) * 1e6],
    ['N160', 'ft/min', 'm/s', '0.00508', (12 * inch) / 60],
  ])('%s: 1 %s in %s', (_, from, to, printed, exact) => {
    const actual = convert(1, from, to);
    expectPrinted(actual, printed);
    expectRelative(actual, exact, 1e-12);
  });

  // The full values as worked out in the reference table from the exact definitions, to fifteen digits.
  it.each<[string, string, string, number]>([
    ['N140', 'lbf', 'N', 4.4482216152605],
    ['N143', 'ozf.in', 'N.m', 0.00706155181422604],
    ['N145', 'lbf.ft', 'N.m', 1.3558179483314],
    ['N148', 'oz', 'kg', 0.028349523125],
    ['N149', 'lb.in2', 'kg.m2', 0.0002926396534292],
    ['N151', 'PS', 'W', 735.49875],
    ['N154', 'deg', 'rad', 0.0174532925199433],
    ['N155', 'rev', 'rad', 6.28318530717959],
    ['N157', 'psi', 'Pa', 6894.75729316836],
    ['N158', 'cmil', 'mm2', 0.000506707479097498],
  ])('%s: full value of 1 %s in %s', (_, from, to, full) =>
    expectRelative(convert(1, from, to), full, 1e-12),
  );

  it('N152: the electric horsepower of 746 W is no unit here, and hp says so', () => {
    expect(findUnit('hp')?.definition).toContain('electric horsepower of motor plates is 746 W');
    // UCUM (row F054): [HP] is 550 ft.lbf/s, the mechanical one.
    expectRelative(convert(1, 'hp', 'W'), 550 * convert(1, 'lbf.ft', 'N.m'), 1e-12);
  });
});

describe('torque the other way and temperatures', () => {
  it('N161 (source TINF): 1 N.m in ozf.in', () => {
    expectPrinted(convert(1, 'N.m', 'ozf.in'), '141.6');
    expectRelative(convert(1, 'N.m', 'ozf.in'), 141.6119, 1e-6);
  });
  it('N163 (source TINF): 1 N.m in lbf.ft, printed truncated', () => {
    expectPrinted(convert(1, 'N.m', 'lbf.ft'), '0.7375', 1);
    expectRelative(convert(1, 'N.m', 'lbf.ft'), 0.7375621, 1e-6);
  });
  it.each<[string, number, string, string, number]>([
    ['N164', 20, 'degC', 'degF', 68],
    ['N166', 212, 'degF', 'degC', 100],
    ['N167', 68, 'degF', 'K', 293.15],
  ])('%s (source NIST): %d %s in %s as a point of the scale', (_, number, from, to, exact) => {
    expectRelative(convert(number, from, to), exact, 1e-12);
  });
});

describe('cross-check with js-quantities', () => {
  it.each<[string, string, string, string]>([
    ['in', 'mm', 'in', 'mm'],
    ['ft', 'm', 'ft', 'm'],
    ['lb', 'kg', 'lbs', 'kg'],
    ['deg', 'rad', 'deg', 'rad'],
    ['rpm', 'rad/s', 'rpm', 'rad/s'],
    ['h', 's', 'h', 's'],
    ['mm/min', 'm/s', 'mm/min', 'm/s'],
    ['in/s2', 'm/s2', 'in/s^2', 'm/s^2'],
    ['kg.mm2', 'kg.m2', 'kg*mm^2', 'kg*m^2'],
    ['bar', 'Pa', 'bar', 'Pa'],
    ['mH', 'uH', 'mH', 'uH'],
    ['kohm', 'ohm', 'kohm', 'ohm'],
    ['nF', 'pF', 'nF', 'pF'],
    ['MHz', 'kHz', 'MHz', 'kHz'],
    ['N.m', 'mN.m', 'N*m', 'mN*m'],
  ])('1 %s in %s', (from, to, theirFrom, theirTo) => {
    expectRelative(convert(1, from, to), Qty(`1 ${theirFrom}`).to(theirTo).scalar, 1e-12);
  });

  // Rows F044 and F053: the library carries these factors rounded to seven to nine digits. Its other known faults keep
  // units out of this check: no ozf, kgf or rev/s, `Nm` unknown, `nm` a nanometre, `cmil` a hundredth of a mil.
  it.each<[string, string, string]>([
    ['oz', 'g', 'oz'],
    ['lbf', 'N', 'lbf'],
    ['hp', 'W', 'hp'],
    ['psi', 'Pa', 'psi'],
  ])('1 %s in %s, to seven digits only', (from, to, theirFrom) => {
    const theirs = Qty(`1 ${theirFrom}`).to(to).scalar;
    expectRelative(convert(1, from, to), theirs, 1e-6);
  });
});

describe('American wire gauge (formula of ASTM B258)', () => {
  it.each<[string, number, string, number, number]>([
    ['N001', 8, '0.12849', 0.1284899, 0.5],
    ['N003', 12, '0.0808', 0.08080809, 0.5],
    ['N004', 14, '0.06408', 0.06408373, 0.5],
    ['N006', 18, '0.0403', 0.04030265, 0.5],
    ['N007', 20, '0.03196', 0.03196146, 0.5],
    ['N009', 24, '0.0201', 0.02010076, 0.5],
    ['N010', 26, '0.01594', 0.01594062, 0.5],
    ['N012', 30, '0.01002', 0.01002516, 1], // printed truncated
  ])('%s (source HYP): diameter of AWG %d in inches', (_, gauge, printed, exact, units) => {
    const inches = awgDiameter(gauge) / 0.0254;
    expectPrinted(inches, printed, units);
    expectRelative(inches, exact, 1e-6);
  });

  // N016 and N019 are printed from a diameter that had been rounded first, so only the formula's value is compared.
  it.each<[string, number, string | undefined, number, number]>([
    ['N013', 8, '16509', 16509.65, 1],
    ['N015', 12, '6529', 6529.947, 1],
    ['N016', 16, undefined, 2582.744, 0],
    ['N018', 20, '1021.5', 1021.535, 0.5],
    ['N019', 24, undefined, 404.0404, 0],
    ['N021', 30, '100.5', 100.5038, 0.5],
  ])('%s (source HYP): area of AWG %d in circular mils', (_, gauge, printed, exact, units) => {
    const cmil = findUnit('cmil');
    const area = awgArea(gauge) / (cmil?.factor ?? Number.NaN);
    if (printed !== undefined) expectPrinted(area, printed, units);
    expectRelative(area, exact, 1e-6);
  });

  it.each<[string, string, number, string, number, number]>([
    ['N022', 'HYP', 8, '0.6282', 0.6281772, 304.8],
    ['N024', 'HYP', 12, '1.588', 1.588219, 304.8],
    ['N025', 'HYP', 14, '2.525', 2.525368, 304.8],
    ['N027', 'HYP', 18, '6.385', 6.384882, 304.8],
    ['N028', 'HYP', 20, '10.15', 10.15236, 304.8],
    ['N030', 'HYP', 24, '25.67', 25.66819, 304.8],
    ['N031', 'HYP', 26, '40.81', 40.81402, 304.8],
    ['N033', 'HYP', 30, '103.2', 103.19, 304.8],
    ['N034', 'TOOL', 10, '3.277', 3.277037, 1000],
    ['N036', 'TOOL', 24, '84.2', 84.21323, 1000],
  ])(
    '%s (source %s): resistance that follows from the area of AWG %d',
    (_, _source, gauge, printed, exact, length) => {
      const resistivity = 0.017241e-6; // IACS, in ohm m
      const resistance = (resistivity * length) / awgArea(gauge);
      expectPrinted(resistance, printed);
      expectRelative(resistance, exact, 1e-6);
    },
  );
});

describe('colour codes (source C757)', () => {
  it.each<[string, string, string]>([
    ['F006', 'BK', 'black'],
    ['F007', 'BN', 'brown'],
    ['F008', 'RD', 'red'],
    ['F009', 'OG', 'orange'],
    ['F010', 'YE', 'yellow'],
    ['F011', 'GN', 'green'],
    ['F012', 'BU', 'blue'],
    ['F013', 'VT', 'violet'],
    ['F014', 'GY', 'grey'],
    ['F015', 'WH', 'white'],
    ['F016', 'PK', 'pink'],
    ['F017', 'GD', 'gold'],
    ['F018', 'TQ', 'turquoise'],
    ['F019', 'SR', 'silver'],
    ['F020', 'GNYE', 'green-yellow'],
  ])('%s: %s is %s', (_, code, name) => expect(readColour(code).value).toMatchObject({ code, name }));

  it('F006 to F019 are all there are, in the order of the table', () => {
    expect(COLOUR_CODES.join(' ')).toBe('BK BN RD OG YE GN BU VT GY WH PK GD TQ SR');
  });
  it('F021: several colours of one conductor are joined without a sign', () => {
    expect(readColour('RDBU').value).toMatchObject({ code: 'RDBU', name: 'red-blue' });
  });
  it('F023: small letters mean the same', () => expect(readColour('bk').value?.code).toBe('BK'));
  it('F024: green and yellow together are GNYE only', () =>
    expect(readColour('YEGN').value?.code).toBe('GNYE'));
});
