import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'name/setting-finer-than-step',
  severity: 'warning',
  title: later`A setting is finer than its step`,
  find: fromProblems('name/setting-finer-than-step'),
  say: (data) =>
    say`${word(data, 'key')} of ${word(data, 'part')} goes in steps of ${word(data, 'step')}, so ${word(data, 'typed')} cannot be keyed in as it stands. The nearest value is ${word(data, 'nearest')}.`,
};
