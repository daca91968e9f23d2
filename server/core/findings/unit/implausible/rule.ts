import type { Analysis } from '../../../analysis.ts';
import { isToldImpossible } from '../../common/impossible.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/implausible',
  severity: 'warning',
  title: 'A value is far from what occurs',
  find: findImplausible,
  say: (data) => {
    const times = word(data, 'times');
    const than =
      data.side === 'below' ? `less than ${word(data, 'least')}` : `more than ${word(data, 'most')}`;
    const far = times === '' ? than : `${than}, ${times} times over`;
    const key = word(data, 'key') || 'What stands here';
    const part = word(data, 'part');
    const span = `${word(data, 'least')} to ${word(data, 'most')}`;
    const usual =
      part === '' ? `${key} is ${span} on machines of this size` : `${key} of ${part} takes ${span}`;
    return `${word(data, 'typed')} is ${data.side === 'below' ? far.replace('times over', 'times below') : far}. ${usual}: check the unit and the decimal point.`;
  },
};

function* findImplausible(analysis: Analysis): Iterable<Found> {
  for (const found of fromProblems('unit/implausible')(analysis)) {
    if (!isToldImpossible(analysis, found.at)) yield found;
  }
}
