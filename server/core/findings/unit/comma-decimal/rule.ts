import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/comma-decimal',
  severity: 'error',
  title: 'A comma in a number',
  find: fromProblems('unit/comma-decimal'),
  say: (data) => {
    const readings = word(data, 'readings').replaceAll(', ', ' or ');
    return `${word(data, 'typed')} has a comma, which means a decimal sign to some and thousands to others. Numbers are written with a decimal point${readings === '' ? '.' : `: ${readings}.`}`;
  },
};
