import { pick } from '../pick.ts';
import type { Scalar } from '../syntax/node.ts';
import {
  DIMENSIONS,
  type DimensionName,
  type Expectation,
  findUnit,
  type Quantity,
  type Reading,
  readQuantity,
  sameDimension,
} from '../units/index.ts';
import type { Setting } from './sheet.ts';

/** How the value of a setting is read: as a word, as a whole number, or as a quantity of one of these dimensions. */
type ValueKind = 'word' | 'count' | readonly [DimensionName, ...DimensionName[]];

/** Meanings that are not listed are words. A rotary axis has angles where a linear one has lengths. */
const KINDS: Readonly<Record<string, ValueKind>> = {
  'pulses-per-length': ['per-length', 'per-angle'],
  'direction-lead': ['time'],
  'pulse-width': ['time'],
  'top-feed': ['speed', 'angular-speed'],
  acceleration: ['acceleration', 'angular-acceleration'],
  travel: ['length', 'angle'],
  'home-feed': ['speed', 'angular-speed'],
  'home-creep': ['speed', 'angular-speed'],
  backlash: ['length', 'angle'],
  'spindle-top-speed': ['angular-speed'],
  'spindle-wait': ['time'],
  'handwheel-step': ['length', 'angle'],
  microsteps: 'count',
  'pulses-per-turn': 'count',
  poles: 'count',
  'phase-current': ['current'],
  'output-voltage': ['voltage'],
  'base-frequency': ['frequency'],
  'top-frequency': ['frequency'],
  'ramp-up': ['time'],
  'ramp-down': ['time'],
};

/** Likeliest units where a setting does not say in which unit the part shows it. */
const UNITS: Readonly<Partial<Record<DimensionName, readonly string[]>>> = {
  time: ['us', 'ns', 'ms', 's'],
  speed: ['mm/min', 'in/min'],
  'angular-speed': ['rpm', 'deg/s'],
  acceleration: ['mm/s2', 'in/s2'],
  'angular-acceleration': ['deg/s2'],
  length: ['mm', 'in'],
  angle: ['deg'],
  'per-length': ['/mm', '/in'],
  'per-angle': ['/deg'],
  current: ['A', 'mA'],
  voltage: ['V'],
  frequency: ['Hz', 'kHz'],
};

const expected = new WeakMap<Setting, { readonly of: Expectation | 'count' | undefined }>();

/** What the values of a setting must be; undefined for words. Worked out once for each setting. */
export function expectationOf(setting: Setting): Expectation | 'count' | undefined {
  let known = expected.get(setting);
  if (!known) {
    known = { of: readExpectation(setting) };
    expected.set(setting, known);
  }
  return known.of;
}

function readExpectation(setting: Setting): Expectation | 'count' | undefined {
  const kind = pick(KINDS, setting.is) ?? 'word';
  if (kind === 'word') return undefined;
  if (kind === 'count') return 'count';
  const stated = setting.fields.text('unit')?.value;
  const unit = stated === undefined ? undefined : findUnit(stated);
  const shown = unit ? kind.filter((name) => sameDimension(DIMENSIONS[name], unit.dimension)) : [];
  const usual = (shown.length > 0 ? shown : kind).flatMap((name) => UNITS[name] ?? []);
  // The unit that the part shows comes first; the others are understood all the same.
  const units = unit && stated ? [stated, ...usual.filter((symbol) => symbol !== stated)] : usual;
  return { dimension: shown.length > 0 ? shown : kind, units };
}

const cache = new WeakMap<Scalar, { setting: Setting; reading: Reading<Quantity> }>();

/** The quantity that a value of this setting says, with what is wrong about it. Counts and words are not quantities. */
export function readSettingQuantity(setting: Setting, scalar: Scalar): Reading<Quantity> {
  const kept = cache.get(scalar);
  if (kept?.setting === setting) return kept.reading;
  const expected = expectationOf(setting);
  const reading =
    expected === undefined || expected === 'count' ? { problems: [] } : readQuantity(scalar.text, expected);
  cache.set(scalar, { setting, reading });
  return reading;
}

/** The whole number that a value of this setting says, e.g. microsteps; undefined for anything else. */
export function readSettingCount(setting: Setting, scalar: Scalar): number | undefined {
  if (expectationOf(setting) !== 'count' || !/^\+?\d{1,9}$/.test(scalar.text)) return undefined;
  return Number(scalar.text);
}
