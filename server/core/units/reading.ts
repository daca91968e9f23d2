import { say } from '../language/say.ts';
import { DIMENSIONS, type DimensionName, nameDimension, sameDimension } from './dimension.ts';
import { findUnit, toSi, type Unit } from './unit.ts';

/** What a key of the format expects of its quantity. */
export interface Expectation {
  readonly dimension: DimensionName | readonly DimensionName[];
  /** The units that fit, likeliest first: they are what a fix offers. */
  readonly units: readonly string[];
  /** The least and the most that can be meant, both included, such as ['50 ns', '1 ms']. Zero counts as any number does. */
  readonly plausible?: readonly [string, string];
}

/** A quantity as it was read. Offsets are in the text that was given. */
export interface Quantity {
  /** In SI units. */
  readonly value: number;
  /** As typed, in `unit`. */
  readonly number: number;
  readonly unit: Unit;
  readonly text: string;
  readonly numberAt: readonly [from: number, to: number];
  /** Where the unit stands; empty, at the end of the number, for a plain number. */
  readonly unitAt: readonly [from: number, to: number];
}

/** What came of reading a text. There can be a value and a problem with it, and there is always one or the other. */
export interface Reading<T> {
  readonly value?: T;
  readonly problems: readonly ValueProblem[];
}

export type ValueProblemCode =
  | 'unit/missing'
  | 'unit/wrong-dimension'
  | 'unit/unknown'
  | 'unit/prefix-case'
  | 'unit/implausible'
  | 'unit/comma-decimal'
  | 'unit/span-upside-down'
  | 'unit/not-a-quantity';

/** A mistake in a value: where it is in the given text, the figures and words for its message, and what cures it. */
export interface ValueProblem {
  readonly code: ValueProblemCode;
  readonly from: number;
  readonly to: number;
  readonly data: Readonly<Record<string, string | number>>;
  /** Likeliest first. */
  readonly repairs: readonly Repair[];
}

/** A replacement of one stretch of the given text. The label is what will stand there afterwards. */
export interface Repair {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  readonly label: string;
}

/** More repairs than this are a menu, not an answer. */
const MOST_REPAIRS = 6;

/** A reading that came to nothing but one problem. */
export function refuse<T>(
  code: ValueProblemCode,
  [from, to]: readonly [number, number],
  data: Readonly<Record<string, string | number>>,
  repairs: readonly Repair[] = [],
): Reading<T> {
  return { problems: [{ code, from, to, data, repairs: repairs.slice(0, MOST_REPAIRS) }] };
}

/** The same problem in a text in which the given one starts at `by`. */
export function shiftProblem(problem: ValueProblem, by: number): ValueProblem {
  const repairs = problem.repairs.map((repair) => ({
    ...repair,
    from: repair.from + by,
    to: repair.to + by,
  }));
  return { ...problem, from: problem.from + by, to: problem.to + by, repairs };
}

/** The dimensions that an expectation allows. */
export function expectedDimensions({ dimension }: Expectation): readonly DimensionName[] {
  return typeof dimension === 'string' ? [dimension] : dimension;
}

/** What is expected, for messages: the kind of quantity in words, and the units that fit. */
export function describeExpectation(expect: Expectation): { expected: string; units: string } {
  const words = expectedDimensions(expect).map(nameDimension);
  return { expected: words.join(say` or `), units: expect.units.filter((unit) => unit !== '').join(', ') };
}

/** Whether a unit has one of the expected dimensions. */
export function fitsDimension(unit: Unit, expect: Expectation): boolean {
  return expectedDimensions(expect).some((name) => sameDimension(DIMENSIONS[name], unit.dimension));
}

/** Whether so many of a unit lie between the least and the most that can be meant (an open question counts as yes). */
export function isPlausible(number: number, unit: Unit, expect: Expectation): boolean {
  if (expect.plausible === undefined) return true;
  const [least, most] = expect.plausible.map((bound) => measure(bound, unit));
  const value = toSi(number, unit);
  return !(least !== undefined && value < least) && !(most !== undefined && value > most);
}

/** The SI value of a bound that the format's own tables state, if it has the dimension of `like`. */
export function measure(bound: string, like: Unit): number | undefined {
  const match = /^(-?[\d.]+(?:e-?\d+)?) ?(.*)$/.exec(bound);
  if (match === null) return undefined;
  const [, number = '', symbol = ''] = match;
  const unit = findUnit(symbol);
  if (symbol !== '' && (unit === undefined || !sameDimension(unit.dimension, like.dimension)))
    return undefined;
  return unit === undefined ? Number(number) : toSi(Number(number), unit);
}
