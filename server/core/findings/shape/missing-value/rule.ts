import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/missing-value',
  severity: 'error',
  title: 'Nothing stands after a key',
  find: fromProblems('shape/missing-value'),
  say: (data) => {
    const item = word(data, 'item');
    const where = item === '' ? word(data, 'key') : `Item ${item} of ${word(data, 'key')}`;
    return `${where} has no value yet. Write ${word(data, 'expected')}, or remove it.`;
  },
};
