import { say } from '../language/say.ts';
import { pick } from '../pick.ts';
import type { Data, Fix, Problem } from '../problem.ts';
import { flatMapEach } from '../reuse/map-each.ts';
import { isNothing } from '../shape/branch.ts';
import { placeProblem, renameTo } from '../shape/leaf.ts';
import { nearestWord, sameWord } from '../shape/spelling.ts';
import type { Scalar } from '../syntax/node.ts';
import { type Expectation, type Quantity, readQuantity } from '../units/index.ts';
import type { Part } from './machine.ts';
import { checkLimits, settingSpan } from './setting-limits.ts';
import { expectationOf } from './setting-value.ts';
import type { Setting } from './sheet.ts';

/** Bounds of what occurs, for settings whose sheet states no span of its own (common practice, no source). */
const PLAUSIBLE: Readonly<Record<string, readonly [string, string]>> = {
  'direction-lead': ['50 ns', '1 ms'],
  'pulse-width': ['50 ns', '1 ms'],
  'phase-current': ['10 mA', '50 A'],
  'output-voltage': ['0.5 V', '1500 V'],
  'spindle-wait': ['0 s', '10 min'],
  'ramp-up': ['10 ms', '30 min'],
  'ramp-down': ['10 ms', '30 min'],
};

/** A value within so many times of its span is outside it; farther off, and cured by another unit, the unit is wrong. */
const FAR = 10;

const kept = new WeakMap<Scalar, { setting: Setting; problems: readonly Problem[] }>();

/** Checks what `set:` says against the sheets: units, choices, spans and steps. One problem for each value at most. */
export const checkAssigned = flatMapEach((part: Part): readonly Problem[] =>
  [...part.assigned].flatMap(([name, { value }]) => {
    const setting = part.sheet?.settings.get(name);
    return setting && value && !isNothing(value) ? checkOnce(part, setting, value) : [];
  }),
);

function checkOnce(part: Part, setting: Setting, value: Scalar): readonly Problem[] {
  const known = kept.get(value);
  if (known?.setting === setting) return known.problems;
  const problems = checkValue(setting, value).map((problem) => ({
    ...problem,
    data: { key: setting.name, part: part.name, ...problem.data },
  }));
  kept.set(value, { setting, problems });
  return problems;
}

/** What is wrong with one value of a setting, in itself and by its sheet. */
export function checkValue(setting: Setting, value: Scalar): readonly Problem[] {
  const expected = expectationOf(setting);
  if (expected === undefined) return checkChoice(setting, value, undefined);
  if (expected === 'count') return checkCount(setting, value);
  const { value: quantity, problems } = readQuantity(value.text, expected);
  const [problem] = problems;
  if (problem) return [placeProblem(value, problem)];
  if (!quantity) return [];
  const choice = checkChoice(setting, value, quantity, expected);
  if (choice.length > 0) return choice;
  const shifted = checkPlausible(setting, value, expected);
  return shifted.length > 0 ? shifted : checkLimits(setting, value, quantity, expected);
}

function checkCount(setting: Setting, value: Scalar): readonly Problem[] {
  if (!/^\+?\d{1,9}$/.test(value.text)) {
    const data = { expected: say`a whole number`, found: `“${value.text.slice(0, 40)}”` };
    return [{ code: 'shape/wrong-type', at: value, data }];
  }
  const expected: Expectation = { dimension: 'number', units: [''] };
  const { value: quantity } = readQuantity(value.text, expected);
  const choice = checkChoice(setting, value, undefined);
  return choice.length > 0 || !quantity ? choice : checkLimits(setting, value, quantity, expected);
}

/** Words must be spelt as the sheet has them; quantities must be equal, so that `3.2A` is one of `[3.2 A]`. */
function checkChoice(
  setting: Setting,
  value: Scalar,
  quantity: Quantity | undefined,
  expected?: Expectation,
): readonly Problem[] {
  const { choices } = setting;
  if (choices.length === 0 || choices.includes(value.text)) return [];
  const sizes = expected ? choices.map((choice) => readQuantity(choice, expected).value?.value) : [];
  if (quantity && sizes.includes(quantity.value)) return [];
  const nearest = quantity ? nearestSize(quantity.value, sizes, choices) : nearestChoice(value.text, choices);
  const data: Data = { found: value.text.slice(0, 60), choices, ...(nearest !== undefined && { nearest }) };
  const fixes: Fix[] = nearest === undefined ? [] : [renameTo(value, nearest, sameWord(value.text, nearest))];
  return [{ code: 'shape/not-a-choice', at: value, data, fixes }];
}

function nearestChoice(typed: string, choices: readonly string[]): string | undefined {
  if (!/^\d+$/.test(typed)) return nearestWord(typed, choices);
  return nearestSize(Number(typed), choices.map(Number), choices);
}

/** The choice that is off by the smallest factor. */
function nearestSize(
  size: number,
  sizes: readonly (number | undefined)[],
  choices: readonly string[],
): string | undefined {
  let best: { choice: string | undefined; off: number } | undefined;
  for (const [index, each] of sizes.entries()) {
    const off = each === undefined || each <= 0 || size <= 0 ? Number.NaN : Math.abs(Math.log(each / size));
    if (off < (best?.off ?? Number.POSITIVE_INFINITY)) best = { choice: choices[index], off };
  }
  return best?.choice;
}

/** A value that is far off and would be right in another unit has the wrong unit, whatever its span is. */
function checkPlausible(setting: Setting, value: Scalar, expected: Expectation): readonly Problem[] {
  const span = settingSpan(setting, expected);
  const plausible = span ? ([span.least.text, span.most.text] as const) : pick(PLAUSIBLE, setting.is);
  if (!plausible) return [];
  const [problem] = readQuantity(value.text, { ...expected, plausible }).problems;
  if (problem?.code !== 'unit/implausible') return [];
  const isFar = Number(problem.data.times ?? FAR) >= FAR && problem.repairs.length > 0;
  return isFar || !span ? [placeProblem(value, problem)] : [];
}
