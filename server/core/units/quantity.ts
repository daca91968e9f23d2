import { findDimensionName, nameDimension, sameDimension } from './dimension.ts';
import { formatBest, formatNumber } from './format.ts';
import { caseVariants, confusedWith, nearestUnits, respell } from './guess.ts';
import { refuseNumber, type ScannedNumber, scanNumber, shorten } from './number.ts';
import {
  describeExpectation,
  type Expectation,
  expectedDimensions,
  fitsDimension,
  isPlausible,
  measure,
  type Quantity,
  type Reading,
  type Repair,
  refuse,
  type ValueProblem,
} from './reading.ts';
import { findUnit, ONE, toSi, type Unit } from './unit.ts';

/**
 * Reads a quantity such as `24 V`, `500 ns` or `320 /mm` (the blank may be left out). The value is in SI units and
 * always finite. An implausible quantity has both a value and a problem; every other problem leaves no value.
 */
export function readQuantity(text: string, expect: Expectation): Reading<Quantity> {
  const scanned = scanNumber(text);
  if (scanned.value === undefined) return completeProblems(text, expect, scanned);
  const number = scanned.value;
  const [unitFrom, unitTo] = findRest(text, number);
  const typed = text.slice(unitFrom, unitTo);
  if (typed === '') {
    if (!expectedDimensions(expect).includes('number')) return refuseBare(text, number, expect);
    const [, end] = number.at;
    return weigh(buildQuantity(text, number, ONE, [end, end]), expect);
  }
  if (typed.startsWith('..'))
    return completeProblems(text, expect, refuseNumber('span', [number.at[0], unitTo], text));
  const unit = findUnit(typed);
  if (unit === undefined || !fitsDimension(unit, expect)) {
    return refuseUnit(typed, unit, [unitFrom, unitTo], number.value, expect);
  }
  const quantity = buildQuantity(text, number, unit, [unitFrom, unitTo]);
  if (!Number.isFinite(quantity.value)) {
    return completeProblems(text, expect, refuseNumber('too-large', number.at, text));
  }
  return weigh(quantity, expect);
}

/** The stretch after a number, without the blanks around it. */
function findRest(text: string, number: ScannedNumber): [number, number] {
  const [, end] = number.at;
  const rest = text.slice(end);
  const from = end + rest.length - rest.trimStart().length;
  return rest.trim() === '' ? [end, end] : [from, from + rest.trim().length];
}

/** A quantity from its number and unit; `text` is what it was read from. */
export function buildQuantity(
  text: string,
  number: ScannedNumber,
  unit: Unit,
  unitAt: readonly [number, number],
): Quantity {
  const { value, at } = number;
  return { value: toSi(value, unit), number: value, unit, text: text.trim(), numberAt: at, unitAt };
}

function weigh(value: Quantity, expect: Expectation): Reading<Quantity> {
  if (isPlausible(value.number, value.unit, expect)) return { value, problems: [] };
  return { value, problems: [describeImplausible(value, expect)] };
}

/** What is implausible about a quantity, with the units that would make it plausible: the smallest shift first. */
function describeImplausible({ value, number, unit, ...typed }: Quantity, expect: Expectation): ValueProblem {
  const repairs = findPlausibleUnits([number], unit, expect).map((each) =>
    replaceUnit(typed.unitAt, formatTyped(typed.text, typed), each),
  );
  const [from, to] = [typed.numberAt[0], typed.unitAt[1]];
  return {
    code: 'unit/implausible',
    from,
    to,
    data: describeBounds(value, unit, typed.text, expect),
    repairs,
  };
}

/** The units in which all these numbers would be plausible: same letters in another case first, then the smallest shift. */
export function findPlausibleUnits(numbers: readonly number[], unit: Unit, expect: Expectation): Unit[] {
  const shift = (each: Unit) => Math.abs(Math.log(each.factor / unit.factor));
  const listed = expect.units.flatMap((symbol) => findUnit(symbol) ?? []);
  const candidates = [...caseVariants(unit.symbol), ...listed.sort((a, b) => shift(a) - shift(b))];
  const good = candidates.filter(
    (each) =>
      sameDimension(each.dimension, unit.dimension) &&
      numbers.every((number) => isPlausible(number, each, expect)),
  );
  return dropRepeats(good);
}

function dropRepeats(units: readonly Unit[]): Unit[] {
  return [...new Map(units.map((unit) => [unit.symbol, unit])).values()];
}

/** The figures of an implausible value: what it comes to, what is plausible, and how many times too large or small. */
export function describeBounds(
  value: number,
  unit: Unit,
  text: string,
  expect: Expectation,
): Readonly<Record<string, string | number>> {
  const [least = '', most = ''] = expect.plausible ?? [];
  const [low, high] = [measure(least, unit), measure(most, unit)];
  const above = high !== undefined && value > high;
  const times = above ? value / high : (low ?? 0) / value;
  const name = findDimensionName(unit.dimension) ?? 'number';
  return {
    ...describeExpectation(expect),
    typed: text,
    reads: formatBest(value, name),
    least,
    most,
    side: above ? 'above' : 'below',
    ...(times > 1 && Number.isFinite(times) ? { times: formatNumber(times, 2) } : {}),
  };
}

function formatTyped(text: string, { numberAt }: Pick<Quantity, 'numberAt'>): string {
  return text.slice(0, numberAt[1] - numberAt[0]);
}

function replaceUnit([from, to]: readonly [number, number], number: string, unit: Unit): Repair {
  const blank = from === to ? ' ' : '';
  return { from, to, text: blank + unit.symbol, label: `${number} ${unit.symbol}` };
}

/** A number without a unit: offers the units that fit, those that make it plausible first. */
function refuseBare(text: string, number: ScannedNumber, expect: Expectation): Reading<Quantity> {
  const { value, at } = number;
  const typed = text.slice(at[0], at[1]);
  const repairs = sortPlausible(listed(expect), value, expect).map((unit) =>
    replaceUnit([at[1], at[1]], typed, unit),
  );
  // A share such as 0.9 was most likely meant as 90 %.
  if (expectedDimensions(expect).includes('share') && Math.abs(value) <= 1 && value !== 0) {
    const percent = `${formatNumber(value * 100)} %`;
    repairs.unshift({ from: at[0], to: at[1], text: percent, label: percent });
  }
  return refuse('unit/missing', at, { ...describeExpectation(expect), typed }, repairs);
}

function listed(expect: Expectation): Unit[] {
  return expect.units.flatMap((symbol) => findUnit(symbol) ?? []);
}

function sortPlausible(units: readonly Unit[], number: number, expect: Expectation): Unit[] {
  const rank = (unit: Unit) => (isPlausible(number, unit, expect) ? 0 : 1);
  return [...units].sort((a, b) => rank(a) - rank(b));
}

/** A unit that is unknown or of another dimension. The same letters in another case are the likeliest explanation. */
function refuseUnit(
  typed: string,
  unit: Unit | undefined,
  at: readonly [number, number],
  number: number,
  expect: Expectation,
): Reading<Quantity> {
  const data = { ...describeExpectation(expect), typed: shorten(typed) };
  const fitting = (units: readonly Unit[]) => {
    const usual = (each: Unit) => (expect.units.includes(each.symbol) ? 0 : 1);
    const fit = [...units].filter((each) => fitsDimension(each, expect)).sort((a, b) => usual(a) - usual(b));
    return sortPlausible(fit, number, expect);
  };
  const repair = (units: readonly Unit[]) =>
    dropRepeats(units).map((each) => replaceUnit(at, formatNumber(number), each));
  const variants = fitting(caseVariants(typed));
  const [meant] = variants;
  if (meant !== undefined) {
    // A variant that is not plausible is no help once there is one that is.
    const good = variants.filter((each) => isPlausible(number, each, expect));
    const words = { meant: meant.symbol, meaning: meant.name };
    return refuse('unit/prefix-case', at, { ...data, ...words }, repair(good.length > 0 ? good : variants));
  }
  if (unit !== undefined) {
    const words = { unit: unit.symbol, name: unit.name, is: nameDimension(unit.dimension) };
    const repairs = repair(fitting([...respell(typed), ...confusedWith(typed)]));
    return refuse('unit/wrong-dimension', at, { ...data, ...words }, repairs);
  }
  const near = nearestUnits(typed, expectedDimensions(expect));
  const nearest = near.map((each) => each.symbol).join(', ');
  return refuse('unit/unknown', at, { ...data, nearest }, repair(fitting(near)));
}

/** Adds what was expected to the problem of a number, and puts first the repairs after which the whole text reads well. */
function completeProblems<T>(text: string, expect: Expectation, { problems }: Reading<T>): Reading<Quantity> {
  const count = ({ from, to, text: repair }: Repair) =>
    readQuantity(text.slice(0, from) + repair + text.slice(to), expect).problems.length;
  return {
    problems: problems.map((problem) => {
      const counted = problem.repairs.map((repair) => ({ repair, count: count(repair) }));
      const repairs = counted.sort((a, b) => a.count - b.count).map(({ repair }) => repair);
      return { ...problem, data: { ...describeExpectation(expect), ...problem.data }, repairs };
    }),
  };
}
