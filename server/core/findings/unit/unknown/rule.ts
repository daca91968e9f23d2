import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/unknown',
  severity: 'error',
  title: later`A unit is not known`,
  find: fromProblems('unit/unknown'),
  say: (data) => {
    const nearest = word(data, 'nearest');
    const advice =
      nearest === ''
        ? say`Units that fit are ${word(data, 'units')}.`
        : say`Did you mean ${nearest.replaceAll(', ', say` or `)}?`;
    return say`${word(data, 'typed')} is no unit that is known here, and ${word(data, 'key') || 'this'} needs ${word(data, 'expected')}. ${advice}`;
  },
};
