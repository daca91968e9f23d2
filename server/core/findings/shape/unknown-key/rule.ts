import { later, say } from '../../../language/say.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/unknown-key',
  severity: 'error',
  title: later`A key is not known here`,
  find: fromProblems('shape/unknown-key'),
  say: (data) => {
    const owner = word(data, 'owner');
    const what = say`${word(data, 'key')} is no key${owner === '' ? ' of this file' : say` of ${owner}`}, so it is not read.`;
    const belongs = word(data, 'belongs');
    if (belongs !== '') return say`${what} It belongs to ${belongs}.`;
    const nearest = word(data, 'nearest');
    return `${what} ${nearest === '' ? say`Known keys here are ${joinWords(wordList(data, 'known'), 'and')}.` : say`Did you mean ${nearest}?`}`;
  },
};
