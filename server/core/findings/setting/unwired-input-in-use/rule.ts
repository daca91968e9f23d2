import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import type { Rule } from '../../rule.ts';
import { isAwaited } from '../../wiring/open-ends.ts';
import { findInputs } from '../input-use.ts';

export const rule: Rule = {
  code: 'setting/unwired-input-in-use',
  severity: 'error',
  title: later`An input is in use and not wired`,
  find: (analysis) => findInputs(analysis, 'on', isAwaited),
  say: (data) =>
    say`${word(data, 'setting')} of ${word(data, 'part')} has ${word(data, 'does')} in use${data.origin === 'set' ? '' : ', as delivered'}, and nothing is wired to ${word(data, 'terminal')}: it never changes, so it either never acts or always does. Wire ${word(data, 'terminal')}, or set ${word(data, 'setting')} to off.`,
};
