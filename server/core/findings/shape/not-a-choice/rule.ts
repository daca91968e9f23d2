import { later, say } from '../../../language/say.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/not-a-choice',
  severity: 'error',
  title: later`A value is not among the choices`,
  find: fromProblems('shape/not-a-choice'),
  say: (data) => {
    const nearest = word(data, 'nearest');
    const choices = wordList(data, 'choices');
    const advice = nearest === '' ? say`Choose ${joinWords(choices)}.` : say`Did you mean ${nearest}?`;
    const rest = nearest !== '' && choices.length > 1 ? say` It can be ${joinWords(choices)}.` : '';
    return say`${word(data, 'key') || 'This'} cannot be ${word(data, 'found')}. ${advice}${rest}`;
  },
};
