import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import { restsOnFault } from '../common/held-back.ts';
import { keyedAt } from '../common/setting-edit.ts';
import type { Found } from '../rule.ts';

/** The newest measured speed, where it was made with a top speed that is no longer keyed in. */
export function olderReadings(analysis: MachineAnalysis): Found[] {
  const found = olderReading(analysis);
  return found ? [found] : [];
}

/** A spindle that was corrected by its readings agrees with them up to this share (common practice, no source). */
const AGREES = 0.01;

/** The newest reading, where it was made with a top speed that is neither keyed in nor was corrected to what is. */
function olderReading(analysis: MachineAnalysis): Found | undefined {
  const corrected = analysis.values.byAddress.get('spindle.corrected-top-speed');
  const now = corrected?.inputs[0];
  const reading = analysis.machine.fields.child('spindle').items('readings').at(-1);
  const [asked, seen, then] = ['asked', 'seen', 'top-speed'].map((key) => reading?.quantity(key));
  if (!corrected || !now?.at || !asked || !seen || !then || restsOnFault(analysis, corrected))
    return undefined;
  const isSame = (other: number, slack: number) => Math.abs(other / now.value - 1) <= slack;
  if (isSame(then.value.value, 1e-6) || isSame(corrected.si, AGREES)) return undefined;
  const keyed = keyedAt(analysis, now.at);
  return {
    at: then.at,
    data: {
      what: 'speed',
      asked: asked.text,
      seen: seen.text,
      before: then.text,
      setting: keyed ? say`${keyed.setting.name} of ${keyed.part.name}` : now.name,
      now: now.shown,
    },
  };
}
