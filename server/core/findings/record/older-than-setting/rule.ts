import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, said, say } from '../../../language/say.ts';
import { type Keyed, keyedInMeaning, numberKeyed } from '../../../model/settings.ts';
import { correctedPulses } from '../../../motion/readings.ts';
import type { Data } from '../../../problem.ts';
import type { Fields, Given } from '../../../shape/fields.ts';
import type { Quantity } from '../../../units/index.ts';
import { controllerOf } from '../../../values/axis-parts.ts';
import { newestRecords } from '../../../values/records-of.ts';
import { isFaulty } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { olderPlays } from '../older-plays.ts';
import { olderReadings } from '../older-readings.ts';

export const rule: Rule = {
  code: 'record/older-than-setting',
  severity: 'hint',
  title: later`A record is older than the setting that it measured`,
  find: findOlder,
  say: (data) =>
    say`${sayMeasured(data)}, and ${word(data, 'setting')} now says ${word(data, 'now')}: ${said(TELLS[word(data, 'what')] ?? '')} ${data.noted === false ? say`Measure again, and note what is keyed in with the new record (scale).` : say`Measure again.`}`,
};

const TELLS: Readonly<Record<string, string>> = {
  travel: later`it tells nothing of how the axis moves now.`,
  speed: later`it tells nothing of how fast it turns now.`,
  play: later`it tells nothing of the play that is left now.`,
};

function sayMeasured(data: Data): string {
  const [axis, seen, asked, before] = ['axis', 'seen', 'asked', 'before'].map((key) => word(data, key));
  switch (data.what) {
    case 'speed':
      return say`The spindle turned at ${seen} for ${asked} with ${before}`;
    case 'play':
      return say`${axis} had ${seen} of play with ${before}`;
    default:
      return say`${axis} went ${seen} for ${asked} ${data.noted === true ? say`with ${before}` : 'with what was keyed in then'}`;
  }
}

/** Errors of a drive train that moves as it should are smaller; a larger one was made with another setting (common practice, no source). */
const GREATEST_ERROR = 0.05;

function* findOlder(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const [axis, record] of newestRecords(analysis.machine, 'asked')) {
    const found = describe(analysis, axis, record);
    if (found) yield found;
  }
  yield* olderReadings(analysis);
  yield* olderPlays(analysis);
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
      what: 'travel',
      axis,
      asked: asked.text,
      seen: seen.text,
      noted: scale !== undefined,
      before: scale?.text ?? '',
      setting: say`${keyed.setting.name} of ${keyed.part.name}`,
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
  const corrected = correctedPulses(scale.value.value, Math.abs(seen.value.value / asked.value.value));
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
