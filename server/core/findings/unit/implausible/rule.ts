import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/implausible',
  severity: 'warning',
  title: 'A value is far from what occurs',
  find: fromProblems('unit/implausible'),
  say: (data) => {
    const times = word(data, 'times');
    const than =
      data.side === 'below' ? `less than ${word(data, 'least')}` : `more than ${word(data, 'most')}`;
    const far = times === '' ? than : `${than}, ${times} times over`;
    const key = word(data, 'key') || 'what stands here';
    const owner = word(data, 'part') === '' ? 'on machines of this size' : `for ${word(data, 'part')}`;
    return `${word(data, 'typed')} is ${data.side === 'below' ? far.replace('times over', 'times below') : far}: ${key} ${owner} lies between ${word(data, 'least')} and ${word(data, 'most')}. Check the unit and the decimal point.`;
  },
};
