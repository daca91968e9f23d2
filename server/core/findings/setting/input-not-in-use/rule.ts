import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import type { Rule } from '../../rule.ts';
import { findInputs } from '../input-use.ts';

export const rule: Rule = {
  code: 'setting/input-not-in-use',
  severity: 'warning',
  title: later`A wired input is not in use`,
  find: (analysis) => findInputs(analysis, 'off'),
  say: (data) =>
    say`${word(data, 'terminal')} of ${word(data, 'part')} is wired for ${word(data, 'does')}, but ${word(data, 'setting')} ${data.origin === 'set' ? 'says off' : 'is not set and stands at off as delivered'}: nobody looks at it, and whatever it tells is ignored. Set it to on, or take the wire away.`,
};
