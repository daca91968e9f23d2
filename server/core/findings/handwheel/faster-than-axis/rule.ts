import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { showBriefly } from '../../../values/derived.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { handwheelTooFast } from '../too-fast.ts';

export const rule: Rule = {
  code: 'handwheel/faster-than-axis',
  severity: 'warning',
  title: later`The handwheel asks for more than an axis can do`,
  find: findTooFast,
  say: (data) =>
    say`At ×100 a spin of ${word(data, 'spin')} asks for ${word(data, 'feed')}, and ${word(data, 'axis')} ends at ${word(data, 'top')}: it falls behind the wheel and goes on after the hand has stopped. Turn more slowly, or take a smaller step.`,
};

function* findTooFast(analysis: Analysis): Iterable<Found> {
  const found = analysis.kind === 'machine' ? handwheelTooFast(analysis) : undefined;
  if (!found) return;
  const { spin, feed, axis, top } = found;
  yield {
    at: spin.at,
    data: { spin: spin.text, feed: showBriefly(feed), axis, top: showBriefly(top) },
  };
}
