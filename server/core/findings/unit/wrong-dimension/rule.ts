import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/wrong-dimension',
  severity: 'error',
  title: later`A unit of another kind of quantity`,
  find: fromProblems('unit/wrong-dimension'),
  say: (data) =>
    say`${word(data, 'unit')} (${word(data, 'name')}) is ${word(data, 'is')}, but ${word(data, 'key') || 'this'} needs ${word(data, 'expected')}. Write it in ${word(data, 'units')}.`,
};
