import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import { keyedInMeaning } from '../../model/settings.ts';
import { frequencyAtSpeed } from '../../motion/spindle.ts';
import type { Data } from '../../problem.ts';
import { formatQuantity } from '../../units/index.ts';
import { showBriefly } from '../../values/derived.ts';
import { readSpindle, readVolts, referenceSpan } from '../../values/spindle-parts.ts';
import { word } from '../common/words.ts';

/** Slip makes a shaft slower than its field by up to this, and meters are not exact (common practice, no source). */
const SLIP = 0.07;
/** Meters and roundings make no more (common practice, no source). */
const METER = 0.02;
/** A line through the readings that starts farther from zero than this share of the top speed has an offset (common practice, no source). */
const OFFSET = 0.03;
/** Top frequencies to which converters are set as delivered, or by mistake (common practice, no source). */
const USUAL_FREQUENCIES = [50, 60, 100, 120, 200, 300, 400, 500, 600, 800, 1000];

/**
 * The likeliest cause of measured speeds that are off, as figures for `sayCause`: what the definition itself explains,
 * an offset, another span of the speed signal, another top frequency, another number of poles; empty when none fits.
 */
export function likelyCause(analysis: MachineAnalysis): Data {
  const { byAddress } = analysis.values;
  const real = byAddress.get('spindle.corrected-top-speed');
  const keyed = real?.inputs[0];
  if (!real || !keyed) return {};
  const top = byAddress.get('spindle.top-speed');
  const offset = byAddress.get('spindle.reading-offset');
  if (offset && Math.abs(offset.si) > OFFSET * keyed.value)
    return { cause: 'offset', starts: showBriefly(offset) };
  if (!top) return isDouble(real.si / keyed.value) ? { cause: 'factor' } : {};
  // Where the same speed is keyed in, the definition explains nothing: slip, the load or the meter makes the rest.
  if (fits(real.si, top.si))
    return Math.abs(top.si / keyed.value - 1) <= METER
      ? {}
      : { cause: 'definition', gives: showBriefly(top) };
  return (
    otherSpan(analysis, real.si, top.si) ?? otherFrequency(analysis, real.si) ?? otherPoles(real.si, top.si)
  );
}

/** True when a shaft at this speed may well belong to a field at that speed. */
function fits(shaft: number, field: number): boolean {
  const ratio = shaft / field;
  return ratio > 1 - SLIP && ratio < 1 + METER;
}

function isDouble(ratio: number): boolean {
  return fits(ratio, 2) || fits(ratio, 0.5);
}

/** Another choice of the converter's speed reference that would make these speeds. */
function otherSpan({ machine }: MachineAnalysis, real: number, top: number): Data | undefined {
  const spindle = readSpindle(machine);
  const now = spindle && referenceSpan(machine, spindle);
  const keyed = spindle?.converter && keyedInMeaning(machine.file, spindle.converter, 'speed-reference');
  for (const choice of keyed?.setting.choices ?? []) {
    const most = readVolts(choice)?.most.value;
    if (!now || most === undefined || choice === keyed?.scalar.text) continue;
    if (fits(real, (top * now.top.value) / most))
      return { cause: 'span', span: choice, setting: say`${keyed?.setting.name} of ${keyed?.part.name}` };
  }
  return undefined;
}

/** Another top frequency of the converter that would make these speeds. */
function otherFrequency({ values }: MachineAnalysis, real: number): Data | undefined {
  const [frequency, poles] = values.byAddress.get('spindle.top-speed')?.inputs ?? [];
  if (!frequency || !poles) return undefined;
  const made = frequencyAtSpeed(real, poles.value);
  const usual = USUAL_FREQUENCIES.find((each) => each !== frequency.value && fits(made, each));
  return usual === undefined
    ? undefined
    : { cause: 'frequency', would: formatQuantity(usual, 'Hz'), set: frequency.shown };
}

function otherPoles(real: number, top: number): Data {
  return isDouble(real / top) ? { cause: 'factor' } : {};
}

/** The cause in words, as a sentence that ends with a blank; empty where none fits. */
export function sayCause(data: Data): string {
  switch (word(data, 'cause')) {
    case 'definition':
      return say`The converter gives ${word(data, 'gives')} at the top of the signal, which explains it. `;
    case 'offset':
      return say`The readings lie on a line that starts at ${word(data, 'starts')} instead of nothing: the speed signal has an offset, or the converter a least frequency. Look for that first; no top speed corrects it. `;
    case 'span':
      return say`That is what a span of ${word(data, 'span')} would make: look whether ${word(data, 'setting')} is really set as it is written here. `;
    case 'frequency':
      return say`That is what a top frequency of ${word(data, 'would')} would make: look whether the converter is really set to ${word(data, 'set')}. `;
    case 'factor':
      return say`A factor of two speaks of speed signals of different spans, 0..5 V and 0..10 V, or of a wrong number of poles. `;
    default:
      return '';
  }
}
