import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'yaml/alias-too-large',
  severity: 'error',
  title: later`Aliases repeat more than is read`,
  find: fromProblems('yaml/alias-too-large'),
  say: (data) =>
    say`With *${word(data, 'name')} the aliases of this file repeat more than ${word(data, 'most')} values; what follows is not read. Aliases of aliases grow quickly: write some of them out.`,
};
