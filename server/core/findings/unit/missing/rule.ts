import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/missing',
  severity: 'error',
  title: later`A unit is missing`,
  find: fromProblems('unit/missing'),
  say: (data) =>
    say`${word(data, 'typed')} has no unit, so it could be any of several sizes. ${word(data, 'key') || 'This'} is ${word(data, 'expected')}: which unit is meant (${word(data, 'units')})?`,
};
