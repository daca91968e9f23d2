import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import type { Rule } from '../../rule.ts';
import { findSpindleSettings } from '../differing-settings.ts';

export const rule: Rule = {
  code: 'spindle/command-ignored',
  severity: 'error',
  title: later`A wired run or speed command is not enabled in the converter`,
  find: (analysis) =>
    findSpindleSettings(analysis, ['run-source', 'speed-source'], ({ keyed, wanted }) => ({
      command: keyed.setting.is === 'run-source' ? 'run command' : 'speed',
      wire: wanted.inputs[0]?.name ?? 'wire',
    })),
  say: (data) =>
    say`${word(data, 'part')} takes its ${word(data, 'command')} from ${word(data, 'now')} and ignores the ${word(data, 'wire')}, so the controller cannot command the spindle. Set ${word(data, 'setting')} to ${word(data, 'wanted')}.`,
};
