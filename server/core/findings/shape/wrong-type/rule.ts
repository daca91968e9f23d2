import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/wrong-type',
  severity: 'error',
  title: later`Something else belongs here`,
  find: fromProblems('shape/wrong-type'),
  say: (data) => {
    const key = word(data, 'key');
    const start = key === '' ? say`Here stands` : say`${key} has`;
    const meant = word(data, 'meant');
    const advice =
      meant === ''
        ? say`Write ${word(data, 'expected')}.`
        : say`Did you mean ${meant}? It takes ${word(data, 'expected')}.`;
    return say`${start} ${word(data, 'found')}, which is not understood there. ${advice}`;
  },
};
