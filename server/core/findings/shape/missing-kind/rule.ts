import { later, say } from '../../../language/say.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/missing-kind',
  severity: 'error',
  title: later`A circuit is of no kind`,
  find: fromProblems('shape/missing-kind'),
  say: (data) =>
    say`${word(data, 'owner')} does not say what it is, so nothing can be solved for it. Write its kind with its terminals: ${joinWords(wordList(data, 'known'))}.`,
};
