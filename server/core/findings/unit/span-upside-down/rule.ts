import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/span-upside-down',
  severity: 'error',
  title: later`A span ends below its start`,
  find: fromProblems('unit/span-upside-down'),
  say: (data) =>
    say`This span goes from ${word(data, 'least')} down to ${word(data, 'most')}, so no value lies in it. Write the smaller end first.`,
};
