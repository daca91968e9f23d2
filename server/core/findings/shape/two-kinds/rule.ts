import { later, say } from '../../../language/say.ts';
import { withArticle, word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'shape/two-kinds',
  severity: 'error',
  title: later`A circuit is of two kinds`,
  find: fromProblems('shape/two-kinds'),
  say: (data) =>
    say`${word(data, 'owner')} is ${withArticle(word(data, 'first'))} and ${withArticle(word(data, 'second'))} at once, so it cannot be solved. Give each its own entry with a name.`,
};
