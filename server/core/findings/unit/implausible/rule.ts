import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { isToldImpossible } from '../../common/impossible.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/implausible',
  severity: 'warning',
  title: later`A value is far from what occurs`,
  find: findImplausible,
  say: (data) => {
    const times = word(data, 'times');
    const isBelow = data.side === 'below';
    const than = isBelow ? say`less than ${word(data, 'least')}` : say`more than ${word(data, 'most')}`;
    const far = isBelow ? say`${than}, ${times} times below` : say`${than}, ${times} times over`;
    const key = word(data, 'key') || say`What stands here`;
    const part = word(data, 'part');
    const span = say`${word(data, 'least')} to ${word(data, 'most')}`;
    const usual =
      part === '' ? say`${key} is ${span} on machines of this size` : say`${key} of ${part} takes ${span}`;
    return say`${word(data, 'typed')} is ${times === '' ? than : far}. ${usual}: check the unit and the decimal point.`;
  },
};

function* findImplausible(analysis: Analysis): Iterable<Found> {
  for (const found of fromProblems('unit/implausible')(analysis)) {
    if (!isToldImpossible(analysis, found.at)) yield found;
  }
}
