import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/unknown',
  severity: 'error',
  title: 'A unit is not known',
  find: fromProblems('unit/unknown'),
  say: (data) => {
    const nearest = word(data, 'nearest');
    const advice =
      nearest === ''
        ? `Units that fit are ${word(data, 'units')}.`
        : `Did you mean ${nearest.replaceAll(', ', ' or ')}?`;
    return `${word(data, 'typed')} is no unit that is known here, and ${word(data, 'key') || 'this'} needs ${word(data, 'expected')}. ${advice}`;
  },
};
