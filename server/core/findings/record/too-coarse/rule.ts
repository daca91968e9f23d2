import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { showBriefly } from '../../../values/derived.ts';
import { newestRecords } from '../../../values/records-of.ts';
import { restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'record/too-coarse',
  severity: 'hint',
  title: later`A measured error is smaller than the measurement can tell`,
  find: findCoarse,
  say: (data) =>
    say`${word(data, 'error')} off over ${word(data, 'asked')} on ${word(data, 'axis')} is within the ${word(data, 'within')} of the measurement itself: there is nothing to correct.`,
};

/** Up to this share of its uncertainty a measurement agrees, and nobody thinks of correcting (common practice, no source). */
const GOOD = 0.5;

function* findCoarse(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const [axis, record] of newestRecords(analysis.machine, 'asked')) {
    const error = analysis.values.byAddress.get(`axes.${axis}.measured-error`);
    const [within, seen, asked] = ['within', 'seen', 'asked'].map((key) => record.quantity(key));
    if (!error || !within || !seen || !asked || restsOnFault(analysis, error)) continue;
    const share = Math.abs(error.si) / within.value.value;
    if (share <= GOOD || share > 1) continue;
    yield {
      at: seen.at,
      data: {
        axis,
        error: showBriefly(error).replace(/^-/, ''),
        asked: asked.text,
        within: within.text,
      },
    };
  }
}
