import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'handwheel/faster-than-axis',
  severity: 'warning',
  title: 'The handwheel asks for more than an axis can do',
  find: findTooFast,
  say: (data) =>
    `At ×100 a spin of ${word(data, 'spin')} asks for ${word(data, 'feed')}, and ${word(data, 'axis')} ends at ${word(data, 'top')}: it falls behind the wheel and goes on after the hand has stopped. Turn more slowly, or take a smaller step.`,
};

function* findTooFast(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const feed = analysis.values.byAddress.get('handwheel.feed-at-100');
  const spin = analysis.machine.fields.child('handwheel').quantity('spin');
  if (!feed || !spin || restsOnFault(analysis, feed)) return;
  const slowest = slowestAxis(analysis, feed.unit);
  if (!slowest || feed.si <= slowest.top.si * (1 + 1e-9) || restsOnFault(analysis, slowest.top)) return;
  yield {
    at: spin.at,
    data: { spin: spin.text, feed: showBriefly(feed), axis: slowest.name, top: showBriefly(slowest.top) },
  };
}

/** The axis with the lowest top feed of those that move in the same unit. */
function slowestAxis(
  { machine, values }: MachineAnalysis,
  unit: string,
): { name: string; top: Derived } | undefined {
  return [...machine.axes.keys()]
    .flatMap((name) => {
      const top = values.byAddress.get(`axes.${name}.top-feed`);
      return top?.unit === unit ? [{ name, top }] : [];
    })
    .sort((a, b) => a.top.si - b.top.si)[0];
}
