import { later, say } from '../../../language/say.ts';
import type { Data } from '../../../problem.ts';
import { suggest, word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'silence/unknown-code',
  severity: 'warning',
  title: later`A silence names no finding`,
  find: fromProblems('silence/unknown-code'),
  say: (data) => `${describe(data)} ${suggest(word(data, 'nearest'), [], '')}`.trim(),
};

function describe(data: Data): string {
  const typed = word(data, 'typed');
  switch (word(data, 'what')) {
    case 'verb':
      return say`${typed} is no word for a silence, so this comment does nothing.`;
    case 'nothing':
      return say`This silence names no finding, so it does nothing. Write the code that stands with a finding behind it, such as wire/drop.`;
    case 'fixed':
      return say`${typed} cannot be silenced: where the text cannot be read, nothing is checked.`;
    default:
      return say`No finding has the code ${typed}, so this silences nothing.`;
  }
}
