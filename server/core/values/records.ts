import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { type Keyed, keyedInMeaning } from '../model/settings.ts';
import { correctedPulses } from '../motion/readings.ts';
import type { Fields } from '../shape/fields.ts';
import { controllerOf, isRotary } from './axis-parts.ts';
import { type Collector, figureInput, keyedInput } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';
import { section } from './piece.ts';
import { newestRecords } from './records-of.ts';

/**
 * Pitch errors and stretched belts are smaller than this share; a measurement that is farther off was made with other
 * microsteps, another gearing or another screw (common practice, no source).
 */
export const GREATEST_CORRECTION = 0.05;

/**
 * What the newest measurement of each axis says of its pulses per length. A correction is worked out only where the
 * error exceeds what the measurement itself may be off by, and where the computed figure does not explain it.
 */
export const deriveRecords = section(addRecords);

function addRecords(machine: Machine, out: Collector): void {
  for (const [axis, record] of newestRecords(machine, 'asked')) {
    if (machine.axes.has(axis)) deriveRecord(machine, axis, record, out);
  }
}

function deriveRecord(machine: Machine, axis: string, record: Fields, out: Collector): void {
  const base = `axes.${axis}`;
  const asked = figureInput(later`travel asked`, record, 'asked', machine.file);
  const seen = figureInput(later`travel seen`, record, 'seen', machine.file);
  if (!asked || !seen) return;
  const exact = out.get(`${base}.pulses-per-length`);
  const error = out.add({
    address: `${base}.measured-error`,
    unit: isRotary(axis) ? 'deg' : 'um',
    formula: '{travel seen} − {travel asked}',
    inputs: [seen, asked],
    si: Math.abs(seen.value) - Math.abs(asked.value),
    source: say`definition`,
  });
  const address = `${base}.corrected-pulses-per-length`;
  const within = figureInput(later`uncertainty`, record, 'within', machine.file);
  const keyed = scaleKeyedIn(machine, axis);
  if (!error || !within || !keyed || !exact) {
    out.lack(
      address,
      within ? say`the pulses per length keyed in` : say`how far off the measurement may be (within)`,
    );
    return;
  }
  const then = figureInput(later`pulses per length at the time`, record, 'scale', machine.file) ?? keyed;
  deriveCorrection(address, { asked, seen, within, error, keyed, then }, exact, out);
}

interface Measured {
  readonly asked: Input;
  readonly seen: Input;
  readonly within: Input;
  readonly error: Derived;
  readonly keyed: Input;
  /** What was keyed in when it was measured. */
  readonly then: Input;
}

function deriveCorrection(address: string, measured: Measured, exact: Derived, out: Collector): void {
  const { asked, seen, within, error, keyed, then } = measured;
  // Which way it went is the matter of the direction, not of the scale.
  const si = correctedPulses(then.value, Math.abs(seen.value / asked.value));
  if (!(Math.abs(exact.si / si - 1) <= GREATEST_CORRECTION)) {
    out.pass(
      address,
      say`a measurement of the drive train as it is now: it is too far from the computed figure`,
    );
    return;
  }
  const agrees = (scale: number) => Math.abs(scale / si - 1) <= within.value / Math.abs(asked.value);
  if (agrees(exact.si)) {
    out.pass(
      address,
      agrees(then.value)
        ? say`an error greater than the ${within.shown} that the measurement may be off by`
        : say`an error that the computed pulses per length do not explain`,
    );
    return;
  }
  if (agrees(keyed.value)) {
    out.pass(address, say`a measurement that contradicts what is keyed in`);
    out.add({
      address: address.replace('corrected', 'confirmed'),
      unit: exact.unit,
      formula: `{${keyed.name}}`,
      inputs: [keyed, inputFrom(error, later`measured error`), within],
      si: keyed.value,
      source: say`what is keyed in agrees with the measurement, the computed figure does not`,
    });
    return;
  }
  out.add({
    address,
    unit: exact.unit,
    formula:
      seen.value / asked.value < 0
        ? `{${then.name}} × |{travel asked} / {travel seen}|`
        : `{${then.name}} × {travel asked} / {travel seen}`,
    inputs: [then, asked, seen, inputFrom(error, later`measured error`), within],
    si,
    source: say`proportion; the error exceeds the uncertainty of the measurement`,
  });
}

/**
 * The pulses per length that an axis should have: the corrected ones where a measurement justifies them, those keyed
 * in where a measurement has confirmed them against the computed ones, and otherwise the computed ones.
 */
export function scaleWanted(axis: string, keyed: Keyed | undefined, out: Collector): Input | undefined {
  const base = `axes.${axis}`;
  const corrected = out.get(`${base}.corrected-pulses-per-length`);
  if (corrected) return inputFrom(corrected, say`corrected pulses per length of ${axis}`);
  const confirmed = out.get(`${base}.confirmed-pulses-per-length`);
  const computed = out.get(`${base}.pulses-per-length`);
  if (confirmed && confirmed.inputs[0]?.at === keyed?.scalar)
    return inputFrom(confirmed, say`confirmed pulses per length of ${axis}`);
  return computed && inputFrom(computed, say`pulses per length of ${axis}`);
}

/** The pulses per length that an axis now has on its controller. */
function scaleKeyedIn(machine: Machine, axis: string): Input | undefined {
  const controller = controllerOf(machine, axis);
  return keyedInput(
    later`pulses per length keyed in`,
    controller && keyedInMeaning(machine.file, controller, 'pulses-per-length', { axis }),
  );
}
