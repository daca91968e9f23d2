import type { Analysis } from '../../../analysis.ts';
import { circuitsDoing } from '../../../circuits/signals.ts';
import { later, say } from '../../../language/say.ts';
import type { Circuit } from '../../../model/sheet.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'handwheel/no-off-position',
  severity: 'hint',
  title: later`The axis selector of a handwheel has no off position`,
  find: findAlwaysOn,
  say: (data) =>
    say`The selector of ${word(data, 'wheel')} always has an axis chosen (at rest ${word(data, 'axis')}): a sleeve that brushes the wheel moves the machine. Take one with an off position, or keep the wheel out of the way.`,
};

function* findAlwaysOn(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const name = analysis.machine.fields.child('handwheel').text('part');
  const wheel = name && analysis.machine.parts.get(name.value);
  const chosen = wheel && circuitsDoing(wheel, 'axis-select').find(isClosedAtRest);
  if (!chosen || !wheel?.sheet) return;
  yield {
    at: name.at,
    data: { wheel: wheel.name, axis: chosen.does?.axis ?? '' },
    related: [
      {
        ...(wheel.sheet.file === analysis.file ? {} : { file: wheel.sheet.file }),
        at: chosen.key,
        note: say`closed at rest`,
      },
    ],
  };
}

function isClosedAtRest({ figures }: Circuit): boolean {
  return figures.text('rest')?.value === 'closed';
}
