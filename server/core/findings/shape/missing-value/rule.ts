import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/missing-value',
  severity: 'error',
  title: later`Nothing stands after a key`,
  find: fromProblems('shape/missing-value'),
  say: (data) => {
    const item = word(data, 'item');
    const where = item === '' ? word(data, 'key') : say`Item ${item} of ${word(data, 'key')}`;
    return say`${where} has no value yet. Write ${word(data, 'expected')}, or remove it.`;
  },
};
