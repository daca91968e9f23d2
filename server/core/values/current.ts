import { say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { PEAK_PER_RMS } from '../motion/winding.ts';
import { figureInput, keyedInput } from './collect.ts';
import type { Input } from './derived.ts';
import { reckonedFrom } from './input.ts';

/** How a sheet states the current of a phase: as the peak of the sine, or as its effective value. */
export type Basis = 'peak' | 'rms';

/** A phase current with the basis in which it is stated. */
export interface PhaseCurrent {
  readonly input: Input;
  readonly basis: Basis | undefined;
}

/** The current that a drive is set to put into each phase. */
export function setCurrent(machine: Machine, drive: Part): PhaseCurrent | undefined {
  const keyed = keyedInMeaning(machine.file, drive, 'phase-current');
  const input = keyedInput(say`set current of ${drive.name}`, keyed);
  return input && { input, basis: basisOf(drive) };
}

/** The current that a motor is rated for in each phase. */
export function ratedCurrent(motor: Part): PhaseCurrent | undefined {
  const input = windingFigure(say`rated current of ${motor.name}`, motor, 'current');
  return input && { input, basis: basisOf(motor) };
}

/** A figure of the motor's first winding; both are alike. */
export function windingFigure(name: string, motor: Part, key: string): Input | undefined {
  const { sheet } = motor;
  const winding = [...(sheet?.circuits.values() ?? [])].find(({ kind }) => kind === 'winding');
  return winding && sheet && figureInput(name, winding.figures, key, sheet.file);
}

/** How a part's sheet states its currents; undefined when it does not say. */
export function basisOf(part: Part): Basis | undefined {
  const basis = part.sheet?.facts.text('current-basis')?.value;
  return basis === 'peak' || basis === 'rms' ? basis : undefined;
}

/**
 * A current in another basis: peak = √2 × RMS, since the phase currents of a two-phase stepper are sines.
 * @returns undefined when a basis is not known and they might differ.
 */
export function inBasis({ input, basis }: PhaseCurrent, wanted: Basis | undefined): Input | undefined {
  if (basis === undefined || wanted === undefined) return undefined;
  if (basis === wanted) return input;
  return wanted === 'peak'
    ? reckonedFrom(input, input.value * PEAK_PER_RMS, `(√2 × ${input.shown})`)
    : reckonedFrom(input, input.value / PEAK_PER_RMS, `(${input.shown} / √2)`);
}

/** The effective value, which heats wires and loads supplies; the current as it is stated where the sheet names no basis. */
export function effectiveCurrent(set: PhaseCurrent): Input {
  return inBasis(set, 'rms') ?? set.input;
}
