import { refuseNumber, scanNumber, shorten } from './number.ts';
import { buildQuantity, describeBounds, findPlausibleUnits, readQuantity } from './quantity.ts';
import {
  describeExpectation,
  type Expectation,
  isPlausible,
  type Quantity,
  type Reading,
  type Repair,
  refuse,
  shiftProblem,
  type ValueProblem,
} from './reading.ts';

/** From the least to the most, both included. A single quantity is a span whose ends are the same. */
export interface Span {
  readonly least: Quantity;
  readonly most: Quantity;
}

/** Reads a span such as `18..32 V`, `18 V..32 V` or `-10..10 V`. The value is there only when least <= most. */
export function readSpan(text: string, expect: Expectation): Reading<Span> {
  const cut = text.indexOf('..');
  if (cut < 0 || text.startsWith('...', cut)) return explainNoSpan(text, expect);
  const left = text.slice(0, cut);
  const right = readQuantity(text.slice(cut + 2), borrowUnit(left, expect));
  if (right.value === undefined)
    return { problems: right.problems.map((each) => placeRight(each, text, cut)) };
  const most = shiftQuantity(right.value, cut + 2);
  const least = readLeft(left, most, expect);
  if (least.value === undefined) return { problems: least.problems };
  const span: Span = { least: least.value, most };
  if (span.least.value > most.value) return refuseUpsideDown(text, span);
  const implausible = weighSpan(text, span, expect);
  return { value: span, problems: implausible === undefined ? [] : [implausible] };
}

/** A problem of the right end as one of the whole text. Where the left end has no unit, the repair is of both. */
function placeRight(problem: ValueProblem, text: string, cut: number): ValueProblem {
  const placed = shiftProblem(problem, cut + 2);
  const start = text.slice(0, cut).trim();
  if (/[^\d.+-]/.test(start) || problem.code === 'unit/not-a-quantity') return placed;
  const repairs = placed.repairs.map((repair) => ({ ...repair, label: `${start}..${repair.label}` }));
  if (placed.code !== 'unit/missing') return { ...placed, repairs };
  const from = text.length - text.trimStart().length;
  return { ...placed, from, data: { ...placed.data, typed: text.slice(from, placed.to) }, repairs };
}

/** Reads a span, or a single quantity as a span of one point, where the format allows either. */
export function readSpanOrQuantity(text: string, expect: Expectation): Reading<Span> {
  if (text.includes('..') || swapSign(text) !== undefined) return readSpan(text, expect);
  const { value, problems } = readQuantity(text, expect);
  return value === undefined ? { problems } : { value: { least: value, most: value }, problems };
}

/** What a right end without a unit most likely has: the unit of the left end, `18 V..32`. */
function borrowUnit(left: string, expect: Expectation): Expectation {
  const unit = readQuantity(left, expect).value?.unit.symbol;
  return unit ? { ...expect, units: [unit, ...expect.units.filter((each) => each !== unit)] } : expect;
}

/** The left end, which may leave its unit to the right one. */
function readLeft(text: string, most: Quantity, expect: Expectation): Reading<Quantity> {
  const scanned = scanNumber(text);
  if (scanned.value === undefined || text.slice(scanned.value.at[1]).trim() !== '') {
    const { plausible: _, ...bare } = expect;
    return readQuantity(text, bare);
  }
  const typed = `${text.trim()} ${most.unit.symbol}`;
  const value = buildQuantity(typed, scanned.value, most.unit, most.unitAt);
  if (!Number.isFinite(value.value)) return refuseNumber('too-large', scanned.value.at, text);
  return { value, problems: [] };
}

function shiftQuantity(quantity: Quantity, by: number): Quantity {
  const [numberFrom, numberTo] = quantity.numberAt;
  const [unitFrom, unitTo] = quantity.unitAt;
  return { ...quantity, numberAt: [numberFrom + by, numberTo + by], unitAt: [unitFrom + by, unitTo + by] };
}

function refuseUpsideDown(text: string, { least, most }: Span): Reading<Span> {
  const at: [number, number] = [least.numberAt[0], most.unitAt[1]];
  const [left = '', right = ''] = text.slice(...at).split('..');
  const shared = least.unitAt[0] === most.unitAt[0];
  const number = text.slice(...most.numberAt);
  const swapped = shared
    ? `${number}..${left.trim()}${right.slice(right.indexOf(number) + number.length)}`
    : `${right.trim()}..${left.trim()}`;
  const repair: Repair = { from: at[0], to: at[1], text: swapped, label: swapped };
  return refuse('unit/span-upside-down', at, { least: least.text, most: most.text, typed: text.trim() }, [
    repair,
  ]);
}

/** One problem for the two ends of an implausible span; another unit is offered where it cures both. */
function weighSpan(text: string, { least, most }: Span, expect: Expectation): ValueProblem | undefined {
  const faulty = [most, least].find((end) => !isPlausible(end.number, end.unit, expect));
  if (faulty === undefined) return undefined;
  const [from, to] = [least.numberAt[0], most.unitAt[1]];
  const shared = least.unitAt[0] === most.unitAt[0] && most.unitAt[0] < most.unitAt[1];
  const units = shared ? findPlausibleUnits([least.number, most.number], most.unit, expect) : [];
  const repairs = units.map(({ symbol }) => {
    const [unitFrom, unitTo] = most.unitAt;
    return { from: unitFrom, to: unitTo, text: symbol, label: text.slice(from, unitFrom) + symbol };
  });
  const data = describeBounds(faulty.value, faulty.unit, faulty.text, expect);
  return { code: 'unit/implausible', from, to, data, repairs };
}

const OTHER_SIGN =
  /^(\s*[+-]?[\d.]+(?![eE][+-]?\d)\s*[^\s\d.-]{0,8})\s*(?:\u2026|\.{3}|[-\u2013\u2014~]|\bto\b)\s*([+-]?[\d.]+.*)$/;

/** The text with `..` for another sign of a span (`18-32 V`, `18 to 32 V`), or undefined if it has none. */
function swapSign(text: string): string | undefined {
  const match = text.length > 100 ? null : OTHER_SIGN.exec(text);
  return match === null ? undefined : `${match[1]?.trim()}..${match[2]?.trim()}`;
}

function explainNoSpan(text: string, expect: Expectation): Reading<Span> {
  const whole = text.trim();
  const from = text.length - text.trimStart().length;
  const at: [number, number] = [from, from + whole.length];
  const swapped = swapSign(text);
  const repairs = swapped === undefined ? [] : [{ from, to: at[1], text: swapped, label: swapped }];
  const reason = swapped === undefined ? 'no-span' : 'span-sign';
  const data = { ...describeExpectation(expect), reason, typed: shorten(whole) };
  return refuse('unit/not-a-quantity', at, data, repairs);
}
