import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/comma-decimal',
  severity: 'error',
  title: later`A comma in a number`,
  find: fromProblems('unit/comma-decimal'),
  say: (data) => {
    const readings = word(data, 'readings').replaceAll(', ', say` or `);
    return say`${word(data, 'typed')} has a comma, which means a decimal sign to some and thousands to others. Numbers are written with a decimal point${readings === '' ? '.' : `: ${readings}.`}`;
  },
};
