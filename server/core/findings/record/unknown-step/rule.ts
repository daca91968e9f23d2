import type { Analysis } from '../../../analysis.ts';
import { listSteps } from '../../../commission/commission.ts';
import { stepRecords } from '../../../commission/results.ts';
import { later, say } from '../../../language/say.ts';
import { nearestName } from '../../../nearest.ts';
import { rangeOf } from '../../../syntax/tree.ts';
import { replaceRange } from '../../common/edits.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'record/unknown-step',
  severity: 'hint',
  title: later`A record is of a commissioning step that the machine does not have`,
  find: findUnknown,
  say: (data) =>
    say`The commissioning list of this machine has no step ${word(data, 'step')}${data.near === '' ? '' : say`; did you mean ${word(data, 'near')}?`} A record counts only under the name of its step, which the list shows.`,
};

function* findUnknown(analysis: Analysis): Iterable<Found> {
  // While a sheet is missing, the steps of its part are missing, too.
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const records = stepRecords(analysis);
  if (records.size === 0 || [...analysis.machine.parts.values()].some(({ sheet }) => !sheet)) return;
  const known = new Set(listSteps(analysis).map(({ id }) => id));
  for (const [id, record] of records) {
    const at = record.text('step')?.at;
    if (known.has(id) || !at) continue;
    const near = nearestName(id, known);
    const range = rangeOf(analysis.tree, at);
    const edit =
      range && near !== undefined ? replaceRange(analysis.tree, range.from, range.to, near) : undefined;
    yield {
      at,
      data: { step: id, near: near ?? '' },
      fixes: edit ? [{ title: say`Change to ${near}`, edits: [edit], safe: false }] : [],
    };
  }
}
