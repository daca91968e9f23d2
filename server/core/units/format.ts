import { say } from '../language/say.ts';
import type { DimensionName } from './dimension.ts';
import { fromSi, namedUnit, ONE, type Unit } from './unit.ts';

const USUAL_DIGITS = 6;

/** The units in which people read a dimension, smallest first; the largest one of which there is at least one is taken. */
const READABLE: Readonly<Record<DimensionName, readonly string[]>> = {
  number: [''],
  share: ['%'],
  length: ['um', 'mm', 'm'],
  area: ['mm2', 'm2'],
  mass: ['g', 'kg'],
  time: ['ns', 'us', 'ms', 's'],
  frequency: ['Hz', 'kHz', 'MHz'],
  speed: ['mm/min'],
  acceleration: ['mm/s2'],
  angle: ['deg'],
  'angular-speed': ['rpm'],
  'angular-acceleration': ['deg/s2'],
  'per-length': ['/mm'],
  'per-angle': ['/deg'],
  force: ['N', 'kN'],
  pressure: ['kPa'],
  torque: ['mN.m', 'N.m'],
  inertia: ['g.cm2', 'kg.cm2'],
  voltage: ['mV', 'V', 'kV'],
  current: ['uA', 'mA', 'A'],
  resistance: ['mohm', 'ohm', 'kohm', 'Mohm'],
  inductance: ['uH', 'mH', 'H'],
  capacitance: ['pF', 'nF', 'uF'],
  power: ['mW', 'W', 'kW'],
  temperature: ['degC'],
};

/**
 * A number as people write it: at most `digits` significant digits (six unless told), no trailing zeros, no
 * separators, no exponent from 1e-4 to 1e7. Whole numbers up to there are kept whole. What is not finite is `?`.
 */
export function formatNumber(number: number, digits?: number): string {
  if (!Number.isFinite(number)) return '?';
  const keepWhole = digits === undefined && Number.isInteger(number) && Math.abs(number) <= 1e7;
  const rounded = keepWhole ? number : roundTo(number, digits ?? USUAL_DIGITS);
  const size = Math.abs(rounded);
  if (size === 0) return '0'; // Also for minus zero, which would print its sign elsewhere.
  if (size >= 1e-4 && size <= 1e7) return String(rounded);
  return rounded.toExponential().replace('e+', 'e');
}

/** Rounds to so many significant digits (1 to 15). */
export function roundTo(number: number, digits: number): number {
  return Number(number.toPrecision(Math.min(15, Math.max(1, Math.round(digits)))));
}

/** An SI value in the unit with this symbol, as text: `formatQuantity(0.005, 'mm')` is `5 mm`. */
export function formatQuantity(value: number, unitSymbol: string, digits?: number): string {
  const unit = namedUnit(unitSymbol);
  if (unit === undefined) return say`${formatNumber(value, digits)} (in SI units)`;
  return formatInUnit(value, unit, digits);
}

/** An SI value in the unit that reads best: `500 ns`, `4.7 kohm`. */
export function formatBest(value: number, dimension: DimensionName, digits = USUAL_DIGITS): string {
  const units = READABLE[dimension].map((symbol) => namedUnit(symbol) ?? ONE);
  // What rounds up to one of the next unit is printed as that: 0.99999999 ms is 1 ms, not 1000 us.
  const best = units.findLast((unit) => Math.abs(roundTo(fromSi(value, unit), digits)) >= 1);
  const forZero = units.find((unit) => unit.factor === 1);
  return formatInUnit(value, best ?? (value === 0 ? forZero : undefined) ?? units[0] ?? ONE, digits);
}

function formatInUnit(value: number, unit: Unit, digits?: number): string {
  return `${formatNumber(fromSi(value, unit), digits)} ${unit.symbol}`.trimEnd();
}
