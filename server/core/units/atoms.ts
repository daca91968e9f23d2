import { later } from '../language/say.ts';
import type { DimensionName } from './dimension.ts';

/** A unit that is not built from others by multiplying or dividing: `m`, `lbf`, `rpm`. */
export interface Atom {
  readonly symbol: string;
  /** In English; `said` says it. */
  readonly name: string;
  /** The name of its prefix, which stands before the name; absent for a unit without one. */
  readonly prefix?: string;
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
  ['p', [later`pico`, -12]],
  ['n', [later`nano`, -9]],
  ['u', [later`micro`, -6]],
  ['m', [later`milli`, -3]],
  ['c', [later`centi`, -2]],
  ['k', [later`kilo`, 3]],
  ['M', [later`mega`, 6]],
  ['G', [later`giga`, 9]],
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
  si('m', later`metre`, 'length', 'numck'),
  other('in', later`inch`, 'length', [127, 5000], later`1 in = 25.4 mm exactly`),
  other('ft', later`foot`, 'length', [381, 1250], later`1 ft = 12 in = 304.8 mm exactly`),
  other(
    'mil',
    later`mil (thousandth of an inch)`,
    'length',
    [127, 5e6],
    later`1 mil = 0.001 in = 0.0254 mm exactly`,
  ),
  other(
    'cmil',
    later`circular mil`,
    'area',
    [Math.PI * 127 ** 2, 4 * 5e6 ** 2],
    later`1 cmil = pi/4 mil2 exactly`,
  ),
  si('g', later`gram`, 'mass', 'umk', 1000),
  other('lb', later`pound`, 'mass', [POUND, 1e8], later`1 lb = 0.45359237 kg exactly`),
  other('oz', later`ounce`, 'mass', [POUND, 16e8], later`1 oz = 1/16 lb exactly`),
  si('s', later`second`, 'time', 'num'),
  other('min', later`minute`, 'time', [60, 1], later`1 min = 60 s exactly`, BIPM),
  other('h', later`hour`, 'time', [3600, 1], later`1 h = 3600 s exactly`, BIPM),
  si('Hz', later`hertz`, 'frequency', 'kMG'),
  other('deg', later`degree`, 'angle', [Math.PI, 180], later`1 deg = pi/180 rad exactly`, BIPM),
  si('rad', later`radian`, 'angle', 'um'),
  other('rev', later`revolution`, 'angle', [2 * Math.PI, 1], later`1 rev = 2 pi rad exactly`),
  other('arcmin', later`arc minute`, 'angle', [Math.PI, 10800], later`1 arcmin = 1/60 deg exactly`, BIPM),
  other('arcsec', later`arc second`, 'angle', [Math.PI, 648000], later`1 arcsec = 1/3600 deg exactly`, BIPM),
  other(
    'rpm',
    later`revolution per minute`,
    'angular-speed',
    [Math.PI, 30],
    later`1 rpm = 2 pi rad in 60 s exactly`,
  ),
  si('N', later`newton`, 'force', 'umk'),
  other('lbf', later`pound-force`, 'force', POUND_FORCE, later`1 lbf = 0.45359237 kg x 9.80665 m/s2 exactly`),
  other('ozf', later`ounce-force`, 'force', [POUND_FORCE[0], 16e13], later`1 ozf = 1/16 lbf exactly`),
  other('kgf', later`kilogram-force`, 'force', [GRAVITY, 1e5], later`1 kgf = 9.80665 N exactly`),
  other('gf', later`gram-force`, 'force', [GRAVITY, 1e8], later`1 gf = 0.00980665 N exactly`),
  si('Pa', later`pascal`, 'pressure', 'kM'),
  other('bar', later`bar`, 'pressure', [1e5, 1], later`1 bar = 100 kPa exactly`),
  other(
    'psi',
    later`pound-force per square inch`,
    'pressure',
    [POUND_FORCE[0] * 25e6, 1e13 * 127 ** 2],
    later`1 psi = 1 lbf/in2`,
  ),
  si('V', later`volt`, 'voltage', 'numk'),
  si('A', later`ampere`, 'current', 'numk'),
  si('ohm', later`ohm`, 'resistance', 'umkM'),
  si('H', later`henry`, 'inductance', 'num'),
  si('F', later`farad`, 'capacitance', 'pnum'),
  si('W', later`watt`, 'power', 'umk'),
  other(
    'hp',
    later`mechanical horsepower`,
    'power',
    [POUND_FORCE[0] * 550 * 381, 1e13 * 1250],
    later`1 hp = 550 ft.lbf/s (the electric horsepower of motor plates is 746 W, the metric one is PS)`,
  ),
  other(
    'PS',
    later`metric horsepower`,
    'power',
    [GRAVITY * 75, 1e5],
    later`1 PS = 75 kgf.m/s = 735.49875 W exactly`,
  ),
  si('K', later`kelvin`, 'temperature', 'm'),
  {
    ...other('degC', later`degree Celsius`, 'temperature', [1, 1], later`0 degC = 273.15 K exactly`, BIPM),
    zero: 273.15,
  },
  {
    ...other(
      'degF',
      later`degree Fahrenheit`,
      'temperature',
      [5, 9],
      later`t in degC = (t in degF - 32) / 1.8 exactly`,
    ),
    zero: (459.67 * 5) / 9,
  },
  other('%', later`per cent`, 'share', [1, 100], later`1 % = 0.01 exactly`, BIPM),
  other('ppm', later`part per million`, 'share', [1, 1e6], later`1 ppm = 0.000001 exactly`, BIPM),
];
