import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'unit/prefix-case',
  severity: 'error',
  title: later`A unit in the wrong case of letters`,
  find: fromProblems('unit/prefix-case'),
  say: (data) =>
    say`${word(data, 'typed')} is spelt with capital and small letters mixed up: m is a thousandth and M a million. Write ${word(data, 'meant')} if ${word(data, 'meaning')} is meant.`,
};
