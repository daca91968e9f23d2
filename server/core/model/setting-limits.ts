import { say } from '../language/say.ts';
import type { Fix, Problem } from '../problem.ts';
import { type Span as Place, type Scalar, spanWithin } from '../syntax/node.ts';
import {
  type Expectation,
  findUnit,
  formatNumber,
  fromSi,
  ONE,
  type Quantity,
  readQuantity,
  readSpan,
  type Span,
  toSi,
  type Unit,
} from '../units/index.ts';
import type { Setting } from './sheet.ts';

interface Limits {
  readonly span: Span | undefined;
  readonly step: Step | undefined;
}

const limits = new WeakMap<Setting, Limits>();

/** A sheet says them once, and they are asked for with every value. */
function limitsOf(setting: Setting, expected: Expectation): Limits {
  let known = limits.get(setting);
  if (!known) {
    known = { span: readSettingSpan(setting, expected), step: readSettingStep(setting, expected) };
    limits.set(setting, known);
  }
  return known;
}

/** From the least to the most value that a setting takes; undefined where its sheet does not say, or not readably. */
export function settingSpan(setting: Setting, expected: Expectation): Span | undefined {
  return limitsOf(setting, expected).span;
}

function readSettingSpan(setting: Setting, expected: Expectation): Span | undefined {
  const text = setting.fields.text('span')?.value;
  return text === undefined ? undefined : readSpan(text, expected).value;
}

/** The smallest change of a setting; stated as its step, or else the worth of its last decimal. */
export interface Step {
  readonly size: number;
  readonly text: string;
  readonly stated: boolean;
}

/** The smallest change of a setting, in SI units: its step, or what its last decimal is worth. */
export function settingStep(setting: Setting, expected: Expectation): Step | undefined {
  return limitsOf(setting, expected).step;
}

function readSettingStep(setting: Setting, expected: Expectation): Step | undefined {
  const text = setting.fields.text('step')?.value;
  const step = text === undefined ? undefined : readQuantity(text, expected).value;
  if (step && step.value > 0) return { size: step.value, text: step.text, stated: true };
  const decimals = setting.fields.count('decimals')?.value;
  if (decimals === undefined) return undefined;
  const symbol = expected.units[0] ?? '';
  const shown = `${formatNumber(10 ** -decimals)}${symbol === '' ? '' : ` ${symbol}`}`;
  const last = readQuantity(shown, expected).value;
  return last && { size: last.value, text: last.text, stated: false };
}

/** What is wrong with a quantity by the span and the step of its setting: one problem at most. */
export function checkLimits(
  setting: Setting,
  scalar: Scalar,
  quantity: Quantity,
  expected: Expectation,
): Problem[] {
  const span = settingSpan(setting, expected);
  const outside = span && outsideSpan(scalar, quantity, span);
  if (outside) return [outside];
  const step = settingStep(setting, expected);
  const between = step && betweenSteps(scalar, quantity, expected, step, span);
  return between ? [between] : [];
}

function outsideSpan(scalar: Scalar, quantity: Quantity, { least, most }: Span): Problem | undefined {
  const slack = 1e-12 * Math.abs(quantity.value);
  const above = quantity.value > most.value + slack;
  if (!above && quantity.value >= least.value - slack) return undefined;
  const bound = above ? most : least;
  return {
    code: 'name/setting-outside-span',
    at: placeOf(scalar, quantity),
    data: {
      typed: quantity.text,
      least: least.text,
      most: most.text,
      side: above ? 'above' : 'below',
      nearest: bound.text,
    },
    fixes: fixTo(scalar, quantity, bound.text),
  };
}

/** Decimals are counted from zero; so are steps where the span begins on one, else from where the span begins. */
function betweenSteps(
  scalar: Scalar,
  quantity: Quantity,
  expected: Expectation,
  step: Step,
  span: Span | undefined,
): Problem | undefined {
  const start = step.stated && span && !isWhole(span.least.value / step.size) ? span.least.value : 0;
  const steps = (quantity.value - start) / step.size;
  if (isWhole(steps)) return undefined;
  const top = span?.most.value ?? Number.POSITIVE_INFINITY;
  const rounded = start + Math.round(steps) * step.size;
  const nearest = showIn(rounded > top ? rounded - step.size : rounded, unitFor(quantity, expected));
  return {
    code: 'name/setting-finer-than-step',
    at: placeOf(scalar, quantity),
    data: { typed: quantity.text, step: step.text, nearest },
    fixes: fixTo(scalar, quantity, nearest),
  };
}

/**
 * The unit that was typed, or that of the part where the two differ by more than a prefix: nobody keys in an inch value
 * where the part shows millimetres, and what it becomes there shows whether it was meant.
 */
function unitFor({ unit }: Quantity, expected: Expectation): Unit {
  const own = findUnit(expected.units[0] ?? '');
  return own && !isWhole(Math.log10(fromSi(toSi(1, unit), own))) ? own : unit;
}

/** Whole up to the rounding of doubles. */
function isWhole(number: number): boolean {
  return Math.abs(number - Math.round(number)) <= 1e-9 * Math.max(1, Math.abs(number));
}

function showIn(si: number, unit: Unit): string {
  const number = formatNumber(fromSi(si, unit), 12);
  return unit === ONE || unit.symbol === '' ? number : `${number} ${unit.symbol}`;
}

function placeOf(scalar: Scalar, { numberAt, unitAt }: Quantity): Place {
  return spanWithin(scalar, numberAt[0], unitAt[1]);
}

function fixTo(scalar: Scalar, quantity: Quantity, text: string): Fix[] {
  if (scalar.textFrom === undefined) return [];
  return [{ title: say`Change to ${text}`, edits: [{ at: placeOf(scalar, quantity), text }], safe: false }];
}
