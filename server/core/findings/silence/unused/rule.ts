import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'silence/unused',
  severity: 'hint',
  title: later`A silence has nothing to silence`,
  find: fromProblems('silence/unused'),
  say: (data) =>
    say`There is no ${word(data, 'silenced')} in this ${word(data, 'scope')} any more. Remove the silence: it would hide the next one.`,
};
