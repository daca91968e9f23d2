import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { keyedInMeaning } from '../../../model/settings.ts';
import type { Data } from '../../../problem.ts';
import type { Fields } from '../../../shape/fields.ts';
import { controllerOf } from '../../../values/axis-parts.ts';
import { newestRecords } from '../../../values/records-of.ts';
import { beyondData } from '../../common/beyond-span.ts';
import { addEntry } from '../../common/edits.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { withNotes } from '../../common/notes.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { settingDiffers } from '../../setting/follow.ts';

export const rule: Rule = {
  code: 'record/backlash',
  severity: 'warning',
  title: later`A measured play asks for another backlash`,
  find: findPlay,
  say: (data) =>
    say`When ${word(data, 'axis')} turns round, ${word(data, 'seen')} of play ${data.isOver === true ? 'are made up for too much' : 'are left'} with ${word(data, 'setting')} at ${word(data, 'now')}, and the measurement is good to ${word(data, 'within')}. ${sayAdvice(data)}`,
};

/** Lengths are equal up to a nanometre. */
const SAME = 1e-9;

function sayAdvice(data: Data): string {
  const wear = say`Look first whether nut, belt or bearings can be tightened: what is made up for is still loose.`;
  const start = data.isOver === true ? '' : `${wear} `;
  if (data.beyond === undefined) return say`${start}Set ${word(data, 'setting')} to ${word(data, 'wanted')}.`;
  return say`${start}${word(data, 'beyond')} would have to be made up for, and ${word(data, 'setting')} takes no ${data.isMore === true ? 'more' : 'less'} than ${word(data, 'end')}.`;
}

function* findPlay(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const [axis, record] of newestRecords(analysis.machine, 'backlash')) {
    const found = describe(analysis, axis, record);
    if (found) yield found;
  }
}

function describe(analysis: MachineAnalysis, axis: string, record: Fields): Found | undefined {
  const { machine, values } = analysis;
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, 'backlash', { axis });
  const corrected = values.byAddress.get(`axes.${axis}.corrected-backlash`);
  const [seen, within] = [record.quantity('backlash'), record.quantity('within')];
  if (!keyed || !corrected || !seen || !within || restsOnFault(analysis, corrected)) return undefined;
  const address = `settings.${keyed.part.name}.${keyed.setting.name}`;
  const [now, wanted] = [values.byAddress.get(`${address}.now`), values.byAddress.get(`${address}.wanted`)];
  if (!now || !wanted || isFaulty(analysis, keyed.scalar)) return undefined;
  const isBeyond = wanted.beyond !== undefined;
  if (!isBeyond && !settingDiffers(keyed.setting, now, wanted)) return undefined;
  const then = record.quantity('setting');
  const setting = say`${keyed.setting.name} of ${keyed.part.name}`;
  // Made with another backlash: that is told of the record.
  if (then && !isBeyond && Math.abs(then.value.value - now.si) > SAME) return undefined;
  const change = changeSetting(analysis, keyed, wanted.si);
  // The record keeps what was keyed in when it was made, so that it never asks for a second correction.
  const note =
    then || !record.node ? undefined : addEntry(analysis.tree, record.node, `setting: ${keyed.scalar.text}`);
  return {
    at: seen.at,
    data: {
      axis,
      seen: seen.text.replace(/^-/, ''),
      isOver: seen.value.value < 0,
      within: within.text,
      setting,
      now: isBeyond && then ? then.text : keyed.scalar.text,
      wanted: change.text,
      ...beyondData(keyed, wanted),
    },
    fixes: change.fix && !isBeyond ? [withNotes(change.fix, [note])] : [],
  };
}
