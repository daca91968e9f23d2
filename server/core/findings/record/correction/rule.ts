import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { keyedInMeaning, numberKeyed } from '../../../model/settings.ts';
import { correctedPulses } from '../../../motion/readings.ts';
import type { Data, Edit } from '../../../problem.ts';
import type { Fields } from '../../../shape/fields.ts';
import { formatNumber, toUnit } from '../../../units/index.ts';
import { controllerOf } from '../../../values/axis-parts.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { GREATEST_CORRECTION } from '../../../values/records.ts';
import { newestRecords } from '../../../values/records-of.ts';
import { beyondData } from '../../common/beyond-span.ts';
import { addEntry } from '../../common/edits.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { withNotes } from '../../common/notes.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'record/correction',
  severity: 'warning',
  title: later`A measured travel asks for other pulses per length`,
  find: findCorrections,
  say: (data) =>
    data.isFar === true
      ? say`${word(data, 'axis')} went ${word(data, 'seen')} for ${word(data, 'asked')} with ${word(data, 'now')} in ${word(data, 'setting')}, as it still is: that makes ${word(data, 'wanted')}, and what is written of the axis makes ${word(data, 'exact')}. No play, pitch error or stretched belt is as large. Look whether microsteps, gearing and carrier are what is written, whether steps were lost, and measure again.`
      : say`${word(data, 'axis')} went ${word(data, 'seen')} for ${word(data, 'asked')}: ${word(data, 'error')} off, and the measurement is good to ${word(data, 'within')}. ${sayAdvice(data)}`,
};

function sayAdvice(data: Data): string {
  const [setting, now, wanted] = [word(data, 'setting'), word(data, 'now'), word(data, 'wanted')];
  if (data.beyond === undefined) return say`Set ${setting} from ${now} to ${wanted}.`;
  return say`${setting} is at ${now} and would have to be ${word(data, 'beyond')}, but it takes no ${data.isMore === true ? 'more' : 'less'} than ${word(data, 'end')}.`;
}

function* findCorrections(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.keys()) {
    const corrected = analysis.values.byAddress.get(`axes.${axis}.corrected-pulses-per-length`);
    const found = corrected && describe(analysis, axis, corrected);
    if (found && !restsOnFault(analysis, corrected)) yield found;
  }
  for (const [axis, record] of newestRecords(analysis.machine, 'asked')) {
    const found = describeFar(analysis, axis, record);
    if (found) yield found;
  }
}

/** What was measured with what is keyed in now, and is too far from what is written to be corrected. */
function describeFar(analysis: MachineAnalysis, axis: string, record: Fields): Found | undefined {
  const { machine, values } = analysis;
  const [asked, seen, scale] = ['asked', 'seen', 'scale'].map((key) => record.quantity(key));
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, 'pulses-per-length', { axis });
  const exact = values.byAddress.get(`axes.${axis}.pulses-per-length`);
  const now = keyed && numberKeyed(keyed);
  if (!asked || !seen || !scale || !keyed || !exact || now === undefined) return undefined;
  const si = correctedPulses(scale.value.value, Math.abs(seen.value.value / asked.value.value));
  const isNow = Math.abs(now / scale.value.value - 1) <= SAME;
  if (!isNow || !(Math.abs(exact.si / si - 1) > GREATEST_CORRECTION)) return undefined;
  const isAtFault = [keyed.scalar, seen.at, scale.at].some((at) => isFaulty(analysis, at));
  if (isAtFault || restsOnFault(analysis, exact)) return undefined;
  return {
    at: seen.at,
    data: {
      isFar: true,
      axis,
      asked: asked.text,
      seen: seen.text,
      setting: say`${keyed.setting.name} of ${keyed.part.name}`,
      now: keyed.scalar.text,
      wanted: `${formatNumber(toUnit(si, exact.unit), 4)} ${exact.unit}`,
      exact: showBriefly(exact),
    },
  };
}

/** Scales are equal up to a millionth. */
const SAME = 1e-6;

function describe(analysis: MachineAnalysis, axis: string, corrected: Derived): Found | undefined {
  const { machine, values } = analysis;
  const [, asked, seen, , within] = corrected.inputs;
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, 'pulses-per-length', { axis });
  const error = values.byAddress.get(`axes.${axis}.measured-error`);
  const wanted = keyed && values.byAddress.get(`settings.${keyed.part.name}.${keyed.setting.name}.wanted`);
  const now = keyed && values.byAddress.get(`settings.${keyed.part.name}.${keyed.setting.name}.now`);
  if (!asked || !seen?.at || !within || !keyed || !wanted || !now || !error) return undefined;
  const isSame = Math.abs(now.si / wanted.si - 1) < 1e-9;
  if (isSame && wanted.beyond === undefined) return undefined;
  const change = changeSetting(analysis, keyed, wanted.si);
  const record = machine.fields.items('records').find((each) => each.quantity('seen')?.at === seen.at);
  const note = record && noteScale(analysis, record, keyed.scalar.text);
  return {
    at: seen.at,
    data: {
      axis,
      asked: asked.shown,
      seen: seen.shown,
      error: showBriefly(error).replace(/^-/, ''),
      within: within.shown,
      setting: say`${keyed.setting.name} of ${keyed.part.name}`,
      now: keyed.scalar.text,
      wanted: change.text,
      ...beyondData(keyed, wanted),
    },
    fixes: change.fix && wanted.beyond === undefined ? [withNotes(change.fix, [note])] : [],
  };
}

/** The record keeps what was keyed in when it was made, so that it never asks for a second correction. */
function noteScale({ tree }: MachineAnalysis, record: Fields, scale: string): Edit | undefined {
  if (!record.node || record.text('scale')) return undefined;
  return addEntry(tree, record.node, `scale: ${scale}`);
}
