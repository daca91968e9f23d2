import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { Keyed } from '../../model/settings.ts';
import type { Data, Fix } from '../../problem.ts';
import { formatNumber } from '../../units/index.ts';
import { type Derived, type Input, showBriefly } from '../../values/derived.ts';
import { THEN } from '../../values/spindle-readings.ts';
import { addEntry } from '../common/edits.ts';
import { restsOnFault } from '../common/held-back.ts';
import { withNotes } from '../common/notes.ts';
import { changeSetting, keyedAt } from '../common/setting-edit.ts';
import { word } from '../common/words.ts';
import type { Found } from '../rule.ts';
import { findDiffering } from '../setting/follow.ts';
import { likelyCause, sayCause } from './likely-cause.ts';

/** What a top speed that was corrected by these readings leaves is no finding (common practice, no source). */
const AGREES = 0.01;

/** Measured speeds that are off by more than one share and not more than another, with what would correct them. */
export function* findReadings(analysis: Analysis, above: number, upTo: number): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const error = analysis.values.byAddress.get('spindle.reading-error');
  const corrected = analysis.values.byAddress.get('spindle.corrected-top-speed');
  const [seen, asked] = error?.inputs ?? [];
  const before = corrected?.inputs[0];
  if (!error || !corrected || !seen?.at || !asked || !before?.at || restsOnFault(analysis, corrected)) return;
  const off = Math.abs(error.si);
  if (off <= above || off > upTo || Math.abs(corrected.si / before.value - 1) <= AGREES) return;
  if (isMadeBefore(corrected, before)) return; // that is told of the reading itself
  const cause = likelyCause(analysis);
  if (cause.cause === 'definition' && isToldAsSetting(analysis)) return;
  const keyed = keyedAt(analysis, before.at);
  const change = keyed && changeSetting(analysis, keyed, roundTo(corrected));
  const left = analysis.values.byAddress.get('spindle.reading-error-left');
  yield {
    at: seen.at,
    data: {
      asked: asked.shown,
      seen: seen.shown,
      error: `${formatNumber(Math.abs(error.value), 3)} %`,
      corrected: change?.text ?? showBriefly(corrected),
      keyed: before.shown,
      left: left ? `${formatNumber(Math.abs(left.value), 2)} %` : '',
      ...cause,
    },
    fixes:
      keyed && change?.fix && cause.cause !== 'offset' ? [noteTopSpeed(analysis, change.fix, keyed)] : [],
  };
}

/** What was measured, why it may be so, and what would correct it. */
export function sayReadings(data: Data): string {
  const left = word(data, 'left');
  return say`Asked for ${word(data, 'asked')} the spindle was seen at ${word(data, 'seen')}, ${word(data, 'error')} off; slip alone makes 2 to 5 %. ${sayCause(data)}A top speed of ${word(data, 'corrected')} in place of ${word(data, 'keyed')} would ${left === '' ? 'correct it' : say`leave ${left}`}; measure again after a change.`;
}

/** The settings of the spindle say it already, with what is wrong about them. */
const TOLD: ReadonlySet<string> = new Set(['spindle-top-speed', 'top-frequency', 'speed-reference', 'poles']);

function isToldAsSetting(analysis: MachineAnalysis): boolean {
  return findDiffering(analysis).some(({ keyed }) => TOLD.has(keyed.setting.is ?? ''));
}

function readingsOf({ machine }: MachineAnalysis) {
  return machine.fields.child('spindle').items('readings');
}

/** True where the readings were made with another top speed than the one keyed in. */
function isMadeBefore({ inputs }: Derived, keyed: Input): boolean {
  return inputs.some(({ name, value }) => name === THEN && Math.abs(value / keyed.value - 1) > 1e-6);
}

/** Each reading keeps the top speed with which it was made, so that it never asks for a second correction. */
function noteTopSpeed(analysis: MachineAnalysis, fix: Fix, { scalar }: Keyed): Fix {
  const notes = readingsOf(analysis).map((reading) =>
    reading.node && !reading.text('top-speed')
      ? addEntry(analysis.tree, reading.node, `top-speed: ${scalar.text}`)
      : undefined,
  );
  return withNotes(fix, notes);
}

/** Whole turns a minute: no panel shows more, and no meter either. */
function roundTo({ si, value }: Derived): number {
  return (si / value) * Math.round(value);
}
