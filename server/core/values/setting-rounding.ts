import { say } from '../language/say.ts';
import { settingSpan, settingStep } from '../model/setting-limits.ts';
import { expectationOf } from '../model/setting-value.ts';
import type { Setting } from '../model/sheet.ts';
import { snapToWhole } from '../motion/domain.ts';
import { roundToDecimals } from '../motion/rounding.ts';
import { type Expectation, findUnit, fromSi, readQuantity, toSi } from '../units/index.ts';
import type { Wanted } from './wanted.ts';

/** A value that a setting can take, and how it came about, to be read behind the formula. */
export interface Rounded {
  readonly si: number;
  readonly how: string;
  /** True where the span of the setting ends before the value. */
  readonly isHeld?: boolean;
}

type Direction = 'nearest' | 'up' | 'down';

/** The value of a setting that comes closest on the safe side; undefined where it has none there. */
export function roundForSetting(setting: Setting, wanted: Wanted, unit: string): Rounded | undefined {
  const towards: Direction =
    wanted.rule === 'least' ? 'up' : wanted.rule === 'most' ? 'down' : wanted.towards;
  if (setting.choices.length > 0) return choose(setting, wanted.si, towards);
  const expected = expectationOf(setting);
  if (expected === undefined || expected === 'count') return { si: wanted.si, how: '' };
  return keepSpan(setting, expected, roundToGrid(setting, expected, wanted.si, towards, unit), towards);
}

function choose(setting: Setting, si: number, towards: Direction): Rounded | undefined {
  const expected = expectationOf(setting);
  const sizes = setting.choices.map((text) => ({ text, size: sizeOf(text, expected) }));
  const slack = 1e-9 * Math.abs(si);
  const fitting = sizes.filter(
    ({ size }) =>
      Number.isFinite(size) &&
      (towards !== 'up' || size >= si - slack) &&
      (towards !== 'down' || size <= si + slack),
  );
  const [best] = fitting.sort((a, b) => Math.abs(a.size - si) - Math.abs(b.size - si));
  if (!best) return undefined;
  const words = {
    nearest: say`the nearest choice`,
    up: say`the next choice above`,
    down: say`the next choice below`,
  };
  return { si: best.size, how: Math.abs(best.size - si) <= slack ? '' : words[towards] };
}

function sizeOf(text: string, expected: ReturnType<typeof expectationOf>): number {
  if (expected === undefined) return Number.NaN;
  return expected === 'count' ? Number(text) : (readQuantity(text, expected).value?.value ?? Number.NaN);
}

/** Steps are counted in the unit that the part shows, so that decimals come out as they are printed. */
function roundToGrid(
  setting: Setting,
  expected: Expectation,
  si: number,
  towards: Direction,
  symbol: string,
): Rounded {
  const unit = findUnit(symbol);
  const step = settingStep(setting, expected);
  if (!unit || !step) return { si, how: '' };
  const size = fromSi(step.size, unit);
  const steps = snapToWhole(fromSi(si, unit) / size);
  const whole = { nearest: Math.round, up: Math.ceil, down: Math.floor }[towards](steps);
  // What is not nothing must not become nothing.
  const count = whole === 0 && steps > 0 ? 1 : whole;
  const decimals = setting.fields.count('decimals')?.value;
  const shown = Number((count * size).toPrecision(14));
  const rounded = toSi(decimals === undefined ? shown : roundToDecimals(shown, Math.min(decimals, 12)), unit);
  const isExact = Math.abs(rounded - si) <= 1e-12 * Math.abs(si);
  const grid = setting.fields.text('step') === undefined ? sayDecimals(decimals) : say`steps of ${step.text}`;
  return { si: rounded, how: isExact ? '' : sayRounded(towards, grid) };
}

function sayRounded(towards: Direction, grid: string): string {
  if (towards === 'nearest') return say`rounded to ${grid}`;
  return towards === 'up' ? say`raised to ${grid}` : say`lowered to ${grid}`;
}

function sayDecimals(decimals = 0): string {
  if (decimals === 0) return say`a whole number`;
  return decimals === 1 ? say`1 decimal` : say`${decimals} decimals`;
}

/** A value outside the span becomes its nearer end, unless that end would be on the unsafe side. */
function keepSpan(
  setting: Setting,
  expected: Expectation,
  rounded: Rounded,
  towards: Direction,
): Rounded | undefined {
  const span = settingSpan(setting, expected);
  if (!span) return rounded;
  const slack = 1e-9 * Math.abs(rounded.si);
  if (rounded.si > span.most.value + slack)
    return towards === 'up'
      ? undefined
      : { si: span.most.value, how: say`at most ${span.most.text}`, isHeld: true };
  if (rounded.si < span.least.value - slack)
    return towards === 'down'
      ? undefined
      : { si: span.least.value, how: say`at least ${span.least.text}`, isHeld: true };
  return rounded;
}
