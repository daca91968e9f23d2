import { listTriedSteps } from '../commission/results.ts';
import { addItem } from '../findings/common/edits.ts';
import { say } from '../language/say.ts';
import type { Place, Refactoring } from './refactoring.ts';

/** Only the first few that are left: they come before the others anyway. */
const MOST_OFFERED = 3;

/**
 * In the records: writes down that a step of the commissioning list was done and came out as expected. It has the day of
 * the record before, since the core knows no clock; a day's steps are mostly entered together.
 */
export function* recordStep({ analysis, steps }: Place): Generator<Refactoring> {
  const [section] = steps;
  if (analysis.kind !== 'machine' || section?.kind !== 'pair' || section.pair.key.text !== 'records') return;
  const date = analysis.machine.fields.items('records').at(-1)?.text('date')?.value;
  if (date === undefined) return;
  // What is measured has a record of its own, with a figure that only the meter knows.
  const left = listTriedSteps(analysis).filter(
    ({ result, record }) => result.state !== 'done' && record.includes('step:'),
  );
  for (const { id, title, record } of left.slice(0, MOST_OFFERED)) {
    const line = record.replace('date: ?', `date: ${date}`).replace('seen: "?"', 'seen: as expected');
    const edit = addItem(analysis.tree, section.pair.value, line);
    if (edit) yield { title: say`Record ${id} as done: ${title}`, kind: 'refactor.rewrite', edits: [edit] };
  }
}
