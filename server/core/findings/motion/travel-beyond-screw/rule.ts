import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { isFaulty } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'motion/travel-beyond-screw',
  severity: 'error',
  title: later`The travel is longer than the screw`,
  find: findTooLong,
  say: (data) =>
    say`${word(data, 'axis')} cannot travel ${word(data, 'travel')} on a screw that is ${word(data, 'length')} long between its bearings: the nut needs room as well. Correct the one or the other.`,
};

function* findTooLong(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const travel = axis.fields.quantity('travel');
    const length = axis.fields.child('screw').quantity('length');
    if (!travel || !length || travel.value.value < length.value.value) continue;
    if (isFaulty(analysis, travel.at) || isFaulty(analysis, length.at)) continue;
    yield {
      at: travel.at,
      data: { axis: axis.name, travel: travel.text, length: length.text },
      related: [{ at: length.at, note: say`the screw is ${length.text} long` }],
    };
  }
}
