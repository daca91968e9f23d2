import type { DimensionName } from './dimension.ts';

/** A unit that is not built from others by multiplying or dividing: `m`, `lbf`, `rpm`. */
export interface Atom {
  readonly symbol: string;
  readonly name: string;
  readonly dimension: DimensionName;
  /** One unit is up / down in SI units. Both are whole numbers where the definition allows, so nothing is rounded twice. */
  readonly up: number;
  readonly down: number;
  /** The SI value of the unit's own zero: only temperatures as points of a scale have one. */
  readonly zero?: number;
  /** The prefixes that occur on a small machine. `MA` or `mHz` is far likelier a slip of the shift key than meant. */
  readonly prefixes: string;
  /** How the unit is defined; absent for SI units. */
  readonly definition?: string;
  readonly source: string;
}

/** Name and power of ten of the SI prefixes in use here (SI Brochure, table 7); they are case-sensitive. */
export const PREFIXES: ReadonlyMap<string, readonly [name: string, power: number]> = new Map([
  ['p', ['pico', -12]],
  ['n', ['nano', -9]],
  ['u', ['micro', -6]],
  ['m', ['milli', -3]],
  ['c', ['centi', -2]],
  ['k', ['kilo', 3]],
  ['M', ['mega', 6]],
  ['G', ['giga', 9]],
]);

const BIPM = 'BIPM, The International System of Units (SI Brochure), 9th edition, 2019';
const NIST = 'NIST Special Publication 811, 2008 edition, appendix B';

function si(symbol: string, name: string, dimension: DimensionName, prefixes: string, down = 1): Atom {
  return { symbol, name, dimension, up: 1, down, prefixes, source: BIPM };
}

function other(
  symbol: string,
  name: string,
  dimension: DimensionName,
  [up, down]: readonly [number, number],
  definition: string,
  source = NIST,
): Atom {
  return { symbol, name, dimension, up, down, prefixes: '', definition, source };
}

// The pound is 0.45359237 kg and standard gravity 9.80665 m/s2, both exactly; their product fits a double exactly.
const POUND = 45359237;
const GRAVITY = 980665;
const POUND_FORCE: readonly [number, number] = [POUND * GRAVITY, 1e13];

/** Every unit known, the ones of the trade's everyday first within a dimension. */
export const ATOMS: readonly Atom[] = [
  si('m', 'metre', 'length', 'numck'),
  other('in', 'inch', 'length', [127, 5000], '1 in = 25.4 mm exactly'),
  other('ft', 'foot', 'length', [381, 1250], '1 ft = 12 in = 304.8 mm exactly'),
  other('mil', 'mil (thousandth of an inch)', 'length', [127, 5e6], '1 mil = 0.001 in = 0.0254 mm exactly'),
  other('cmil', 'circular mil', 'area', [Math.PI * 127 ** 2, 4 * 5e6 ** 2], '1 cmil = pi/4 mil2 exactly'),
  si('g', 'gram', 'mass', 'umk', 1000),
  other('lb', 'pound', 'mass', [POUND, 1e8], '1 lb = 0.45359237 kg exactly'),
  other('oz', 'ounce', 'mass', [POUND, 16e8], '1 oz = 1/16 lb exactly'),
  si('s', 'second', 'time', 'num'),
  other('min', 'minute', 'time', [60, 1], '1 min = 60 s exactly', BIPM),
  other('h', 'hour', 'time', [3600, 1], '1 h = 3600 s exactly', BIPM),
  si('Hz', 'hertz', 'frequency', 'kMG'),
  other('deg', 'degree', 'angle', [Math.PI, 180], '1 deg = pi/180 rad exactly', BIPM),
  si('rad', 'radian', 'angle', 'um'),
  other('rev', 'revolution', 'angle', [2 * Math.PI, 1], '1 rev = 2 pi rad exactly'),
  other('arcmin', 'arc minute', 'angle', [Math.PI, 10800], '1 arcmin = 1/60 deg exactly', BIPM),
  other('arcsec', 'arc second', 'angle', [Math.PI, 648000], '1 arcsec = 1/3600 deg exactly', BIPM),
  other('rpm', 'revolution per minute', 'angular-speed', [Math.PI, 30], '1 rpm = 2 pi rad in 60 s exactly'),
  si('N', 'newton', 'force', 'umk'),
  other('lbf', 'pound-force', 'force', POUND_FORCE, '1 lbf = 0.45359237 kg x 9.80665 m/s2 exactly'),
  other('ozf', 'ounce-force', 'force', [POUND_FORCE[0], 16e13], '1 ozf = 1/16 lbf exactly'),
  other('kgf', 'kilogram-force', 'force', [GRAVITY, 1e5], '1 kgf = 9.80665 N exactly'),
  other('gf', 'gram-force', 'force', [GRAVITY, 1e8], '1 gf = 0.00980665 N exactly'),
  si('Pa', 'pascal', 'pressure', 'kM'),
  other('bar', 'bar', 'pressure', [1e5, 1], '1 bar = 100 kPa exactly'),
  other(
    'psi',
    'pound-force per square inch',
    'pressure',
    [POUND_FORCE[0] * 25e6, 1e13 * 127 ** 2],
    '1 psi = 1 lbf/in2',
  ),
  si('V', 'volt', 'voltage', 'numk'),
  si('A', 'ampere', 'current', 'numk'),
  si('ohm', 'ohm', 'resistance', 'umkM'),
  si('H', 'henry', 'inductance', 'num'),
  si('F', 'farad', 'capacitance', 'pnum'),
  si('W', 'watt', 'power', 'umk'),
  other(
    'hp',
    'mechanical horsepower',
    'power',
    [POUND_FORCE[0] * 550 * 381, 1e13 * 1250],
    '1 hp = 550 ft.lbf/s (the electric horsepower of motor plates is 746 W, the metric one is PS)',
  ),
  other('PS', 'metric horsepower', 'power', [GRAVITY * 75, 1e5], '1 PS = 75 kgf.m/s = 735.49875 W exactly'),
  si('K', 'kelvin', 'temperature', 'm'),
  {
    ...other('degC', 'degree Celsius', 'temperature', [1, 1], '0 degC = 273.15 K exactly', BIPM),
    zero: 273.15,
  },
  {
    ...other(
      'degF',
      'degree Fahrenheit',
      'temperature',
      [5, 9],
      't in degC = (t in degF - 32) / 1.8 exactly',
    ),
    zero: (459.67 * 5) / 9,
  },
  other('%', 'per cent', 'share', [1, 100], '1 % = 0.01 exactly', BIPM),
  other('ppm', 'part per million', 'share', [1, 1e6], '1 ppm = 0.000001 exactly', BIPM),
];
