import { expectationOf } from '../../model/setting-value.ts';
import type { Setting } from '../../model/sheet.ts';
import type { Input } from '../../values/derived.ts';
import { roundForSetting } from '../../values/setting-rounding.ts';

/**
 * The value of a setting that comes closest to a bound and keeps it, by its choices, steps, decimals and span.
 * @returns SI; NaN where no value of the setting keeps the bound, or it is no quantity.
 */
export function closestSetting(setting: Setting, bound: Input, rule: 'least' | 'most'): number {
  const expected = expectationOf(setting);
  if (expected === undefined || expected === 'count') return Number.NaN;
  const wanted = {
    si: bound.value,
    formula: `{${bound.name}}`,
    inputs: [bound],
    rule,
    towards: 'nearest',
    source: '',
  } as const;
  return roundForSetting(setting, wanted, expected.units[0] ?? '')?.si ?? Number.NaN;
}
