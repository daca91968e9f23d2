import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { type Keyed, keyedInMeaning, numberKeyed } from '../../../model/settings.ts';
import { correctedPulses } from '../../../motion/readings.ts';
import type { Fields, Given } from '../../../shape/fields.ts';
import type { Quantity } from '../../../units/index.ts';
import { controllerOf } from '../../../values/axis-parts.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { keyedAt } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'record/older-than-setting',
  severity: 'hint',
  title: 'A record is older than the setting that it measured',
  find: findOlder,
  say: (data) =>
    `${data.axis === '' ? 'The spindle turned at' : `${word(data, 'axis')} went`} ${word(data, 'seen')} for ${word(data, 'asked')} ${data.noted === true ? `with ${word(data, 'before')}` : 'with what was keyed in then'}, and ${word(data, 'setting')} now says ${word(data, 'now')}: it tells nothing of how ${data.axis === '' ? 'fast it turns' : 'the axis moves'} now. Measure again.`,
};

/** Errors of a drive train that moves as it should are smaller; a larger one was made with another setting (common practice, no source). */
const GREATEST_ERROR = 0.05;

function* findOlder(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const newest = new Map(
    analysis.machine.fields.items('records').map((record) => [record.text('axis')?.value, record] as const),
  );
  for (const [axis, record] of newest) {
    const found = axis === undefined ? undefined : describe(analysis, axis, record);
    if (found) yield found;
  }
  const speed = describeReading(analysis);
  if (speed) yield speed;
}

/** A spindle that was corrected by its readings agrees with them up to this share (common practice, no source). */
const AGREES = 0.01;

/** The newest reading, where it was made with a top speed that is neither keyed in nor was corrected to what is. */
function describeReading(analysis: MachineAnalysis): Found | undefined {
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
      axis: '',
      asked: asked.text,
      seen: seen.text,
      noted: true,
      before: then.text,
      setting: keyed ? `${keyed.setting.name} of ${keyed.part.name}` : now.name,
      now: now.shown,
    },
  };
}

function describe(analysis: MachineAnalysis, axis: string, record: Fields): Found | undefined {
  const { machine, values } = analysis;
  const [asked, seen, scale] = ['asked', 'seen', 'scale'].map((key) => record.quantity(key));
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, 'pulses-per-length', { axis });
  if (!asked || !seen || !keyed || isFaulty(analysis, keyed.scalar) || isFaulty(analysis, seen.at))
    return undefined;
  if (values.byAddress.has(`axes.${axis}.corrected-pulses-per-length`)) return undefined;
  const exact = values.byAddress.get(`axes.${axis}.pulses-per-length`)?.si;
  const isOlder = scale
    ? isReplaced(keyed, scale, asked, seen, record)
    : isImpossible(keyed, exact, asked, seen);
  if (!isOlder) return undefined;
  return {
    at: scale?.at ?? seen.at,
    data: {
      axis,
      asked: asked.text,
      seen: seen.text,
      noted: scale !== undefined,
      before: scale?.text ?? '',
      setting: `${keyed.setting.name} of ${keyed.part.name}`,
      now: keyed.scalar.text,
    },
  };
}

/** True when what is keyed in is neither what it was nor what the measurement made of it. */
function isReplaced(
  keyed: Keyed,
  scale: Given<Quantity>,
  asked: Given<Quantity>,
  seen: Given<Quantity>,
  record: Fields,
): boolean {
  const now = numberKeyed(keyed);
  if (now === undefined) return false;
  const corrected = correctedPulses(scale.value.value, seen.value.value / asked.value.value);
  const uncertainty = (record.quantity('within')?.value.value ?? 0) / Math.abs(asked.value.value);
  const agrees = (other: number) => Math.abs(now / other - 1) <= Math.max(uncertainty, 1e-6);
  return !agrees(scale.value.value) && !agrees(corrected);
}

/** True when the axis is set as it should be and still cannot have moved like that. */
function isImpossible(
  keyed: Keyed,
  exact: number | undefined,
  asked: Given<Quantity>,
  seen: Given<Quantity>,
): boolean {
  const now = numberKeyed(keyed);
  if (now === undefined || exact === undefined) return false;
  const error = Math.abs(Math.abs(seen.value.value / asked.value.value) - 1);
  return Math.abs(now / exact - 1) <= GREATEST_ERROR && error > GREATEST_ERROR;
}
