import { later, say } from '../../../language/say.ts';
import { showBriefly } from '../../../values/derived.ts';
import { word } from '../../common/words.ts';
import type { Rule } from '../../rule.ts';
import { findSpindleSettings } from '../differing-settings.ts';

export const rule: Rule = {
  code: 'spindle/wait-too-short',
  severity: 'warning',
  title: later`The controller does not wait until the spindle is up to speed`,
  find: (analysis) =>
    findSpindleSettings(analysis, ['spindle-wait'], (_, { values }) => {
      const ramp = values.byAddress.get('spindle.ramp-time');
      return { ramp: ramp ? showBriefly(ramp) : '' };
    }),
  say: (data) =>
    say`${word(data, 'part')} waits ${word(data, 'now')} for the spindle, which takes ${word(data, 'ramp')} to come up to its top speed: the tool enters the work before that. Set ${word(data, 'setting')} to ${word(data, 'wanted')}.`,
};
