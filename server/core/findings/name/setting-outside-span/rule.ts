import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'name/setting-outside-span',
  severity: 'error',
  title: later`A setting is outside its span`,
  find: fromProblems('name/setting-outside-span'),
  say: (data) =>
    say`${word(data, 'typed')} is ${data.side === 'above' ? 'more' : 'less'} than ${word(data, 'key')} of ${word(data, 'part')} takes: ${word(data, 'least')} to ${word(data, 'most')}. It cannot be keyed in; the nearest that can is ${word(data, 'nearest')}.`,
};
