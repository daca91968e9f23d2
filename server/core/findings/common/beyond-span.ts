import { say } from '../../language/say.ts';
import { settingSpan } from '../../model/setting-limits.ts';
import { expectationOf } from '../../model/setting-value.ts';
import type { Keyed } from '../../model/settings.ts';
import type { Data } from '../../problem.ts';
import { formatNumber, toUnit } from '../../units/index.ts';
import type { Derived } from '../../values/derived.ts';
import { word } from './words.ts';

/** What a setting should be and where its span ends before that, to be said; nothing where it goes as far. */
export function beyondData({ setting }: Keyed, { beyond, unit }: Derived): Data {
  const expected = expectationOf(setting);
  if (beyond === undefined || expected === undefined || expected === 'count') return {};
  const span = settingSpan(setting, expected);
  if (!span) return {};
  const isMore = beyond > span.most.value;
  return {
    beyond: `${formatNumber(toUnit(beyond, unit), 6)} ${unit}`,
    end: (isMore ? span.most : span.least).text,
    isMore,
  };
}

/** What to do about a setting whose span ends too early. */
export function sayEnd(data: Data): string {
  return say`It takes no ${data.isMore === true ? 'more' : 'less'} than ${word(data, 'end')}: change what asks for it, or the part.`;
}
