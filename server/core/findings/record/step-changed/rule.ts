import type { Analysis } from '../../../analysis.ts';
import { listSteps } from '../../../commission/commission.ts';
import { isSame, stepRecords } from '../../../commission/results.ts';
import { later, say } from '../../../language/say.ts';
import { rangeOf } from '../../../syntax/tree.ts';
import { replaceRange } from '../../common/edits.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'record/step-changed',
  severity: 'hint',
  title: later`A commissioning step was done before something changed`,
  find: findChanged,
  say: (data) =>
    say`${word(data, 'step')} was done when ${word(data, 'before')} was expected; now it is ${word(data, 'now')}, so the record says nothing of the machine as it is. Do the step again and write what was seen.`,
};

function* findChanged(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const records = stepRecords(analysis);
  if (records.size === 0) return;
  for (const step of listSteps(analysis)) {
    const expected = records.get(step.id)?.text('expected');
    const now = step.recorded;
    if (!expected || isSame(expected.value, now)) continue;
    const range = rangeOf(analysis.tree, expected.at);
    const text = JSON.stringify(now.replaceAll('"', "'"));
    const edit = range && replaceRange(analysis.tree, range.from, range.to, text);
    yield {
      at: expected.at,
      data: { step: step.id, before: expected.value, now: now === '' ? say`nothing in particular` : now },
      fixes: edit
        ? [{ title: say`It was done again: expect what the list says now`, edits: [edit], safe: false }]
        : [],
    };
  }
}
