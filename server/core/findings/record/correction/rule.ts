import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { keyedInMeaning } from '../../../model/settings.ts';
import type { Edit } from '../../../problem.ts';
import type { Fields } from '../../../shape/fields.ts';
import { controllerOf } from '../../../values/axis-parts.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { addEntry } from '../../common/edits.ts';
import { restsOnFault } from '../../common/held-back.ts';
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
    say`${word(data, 'axis')} went ${word(data, 'seen')} for ${word(data, 'asked')}: ${word(data, 'error')} off, and the measurement is good to ${word(data, 'within')}. Set ${word(data, 'setting')} from ${word(data, 'now')} to ${word(data, 'wanted')}.`,
};

function* findCorrections(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.keys()) {
    const corrected = analysis.values.byAddress.get(`axes.${axis}.corrected-pulses-per-length`);
    const found = corrected && describe(analysis, axis, corrected);
    if (found && !restsOnFault(analysis, corrected)) yield found;
  }
}

function describe(analysis: MachineAnalysis, axis: string, corrected: Derived): Found | undefined {
  const { machine, values } = analysis;
  const [, asked, seen, , within] = corrected.inputs;
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, 'pulses-per-length', { axis });
  const error = values.byAddress.get(`axes.${axis}.measured-error`);
  const wanted = keyed && values.byAddress.get(`settings.${keyed.part.name}.${keyed.setting.name}.wanted`);
  const now = keyed && values.byAddress.get(`settings.${keyed.part.name}.${keyed.setting.name}.now`);
  if (!asked || !seen?.at || !within || !keyed || !wanted || !now || !error) return undefined;
  if (Math.abs(now.si / wanted.si - 1) < 1e-9) return undefined;
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
    },
    fixes: change.fix ? [withNotes(change.fix, [note])] : [],
  };
}

/** The record keeps what was keyed in when it was made, so that it never asks for a second correction. */
function noteScale({ tree }: MachineAnalysis, record: Fields, scale: string): Edit | undefined {
  if (!record.node || record.text('scale')) return undefined;
  return addEntry(tree, record.node, `scale: ${scale}`);
}
