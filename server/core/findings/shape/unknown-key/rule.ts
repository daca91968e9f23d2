import { joinWords, word, wordList } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/unknown-key',
  severity: 'error',
  title: 'A key is not known here',
  find: fromProblems('shape/unknown-key'),
  say: (data) => {
    const owner = word(data, 'owner');
    const what = `${word(data, 'key')} is no key${owner === '' ? ' of this file' : ` of ${owner}`}, so it is not read.`;
    const belongs = word(data, 'belongs');
    if (belongs !== '') return `${what} It belongs to ${belongs}.`;
    const nearest = word(data, 'nearest');
    return `${what} ${nearest === '' ? `Known keys here are ${joinWords(wordList(data, 'known'), 'and')}.` : `Did you mean ${nearest}?`}`;
  },
};
