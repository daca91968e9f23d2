import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { formatNumber } from '../../../units/index.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { restsOnFault } from '../../common/held-back.ts';
import { changeSetting, keyedAt } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'spindle/readings-off',
  severity: 'warning',
  title: 'The spindle turns at another speed than was asked for',
  find: findReadings,
  say: (data) =>
    `Asked for ${word(data, 'asked')} the spindle was seen at ${word(data, 'seen')}, ${word(data, 'error')} off; slip alone makes 2 to 5 %. ${word(data, 'cause')} A top speed of ${word(data, 'corrected')} in place of ${word(data, 'keyed')} would correct it; measure again after a change.`,
};

/** More than slip and a meter's own error can make (common practice, no source). */
const MUCH = 0.1;

function* findReadings(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const error = analysis.values.byAddress.get('spindle.reading-error');
  const corrected = analysis.values.byAddress.get('spindle.corrected-top-speed');
  const [seen, asked] = error?.inputs ?? [];
  const keyedInput = corrected?.inputs[0];
  if (!error || !corrected || !seen?.at || !asked || !keyedInput?.at) return;
  if (Math.abs(error.si) <= MUCH || restsOnFault(analysis, corrected)) return;
  const keyed = keyedAt(analysis, keyedInput.at);
  const change = keyed && changeSetting(analysis, keyed, roundTo(corrected));
  yield {
    at: seen.at,
    data: {
      asked: asked.shown,
      seen: seen.shown,
      error: `${formatNumber(Math.abs(error.value), 3)} %`,
      cause: likelyCause(analysis, corrected.si / keyedInput.value),
      corrected: change?.text ?? showBriefly(corrected),
      keyed: keyedInput.shown,
    },
  };
}

/** Whole turns a minute: no panel shows more, and no meter either. */
function roundTo({ si, value }: Derived): number {
  return (si / value) * Math.round(value);
}

/** What the definition says of the top speed, if it explains the gain of the readings. */
function likelyCause({ values }: MachineAnalysis, gain: number): string {
  const top = values.byAddress.get('spindle.top-speed');
  const keyed = values.byAddress.get('spindle.corrected-top-speed')?.inputs[0];
  if (top && keyed && Math.abs(top.si / keyed.value / gain - 1) < 0.07)
    return `The converter gives ${showBriefly(top)} at the top of the signal, which explains it.`;
  if (Math.abs(gain - 0.5) < 0.04 || Math.abs(gain - 2) < 0.15)
    return 'A factor of two speaks of speed signals of different spans, 0..5 V and 0..10 V, or of a wrong number of poles.';
  return '';
}
