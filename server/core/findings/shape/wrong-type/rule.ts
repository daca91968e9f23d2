import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/wrong-type',
  severity: 'error',
  title: 'Something else belongs here',
  find: fromProblems('shape/wrong-type'),
  say: (data) => {
    const key = word(data, 'key');
    const start = key === '' ? 'Here stands' : `${key} has`;
    const meant = word(data, 'meant');
    const advice =
      meant === ''
        ? `Write ${word(data, 'expected')}.`
        : `Did you mean ${meant}? It takes ${word(data, 'expected')}.`;
    return `${start} ${word(data, 'found')}, which is not understood there. ${advice}`;
  },
};
