import { aboveZero, notBelowZero } from './domain.ts';

/** Two figures that stand for the ends of a scale; the first may be the greater. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/**
 * Carries a figure from one straight scale to another, past their ends too: a speed to the volts that ask for it,
 * volts to a frequency (frequency converter manuals, analog input scaling).
 * @param value on the scale `source`, in its unit
 * @returns in the unit of `target`; NaN when the source scale has no length.
 */
export function rescale(value: number, source: Span, target: Span): number {
  const length = source.to - source.from;
  const share = (value - source.from) / (length === 0 ? Number.NaN : length);
  return target.from + share * (target.to - target.from);
}

/** What the bits of a converter divide its span by: their count of codes, or the steps between first and last code. */
export type Division = 'codes' | 'steps';

/**
 * The smallest change that an output of so many bits can make: span / 2^bits where the makers' top code falls one
 * step short of the span ("codes"), span / (2^bits - 1) where it reaches it ("steps"). Both are in use (data sheets).
 * @param length of the span in any unit: V, or rad/s for the speed that the span stands for
 * @param bits whole number, 1 or more
 * @returns in the unit of `length`; NaN for a length below zero or bits that are not a whole number from 1 to 52.
 */
export function stepOfBits(length: number, bits: number, division: Division = 'codes'): number {
  const possible = Number.isInteger(bits) && bits >= 1 && bits <= 52;
  const parts = possible ? 2 ** bits - (division === 'steps' ? 1 : 0) : Number.NaN;
  return notBelowZero(length) / parts;
}

/**
 * Relative error of a voltage that an output with resistance puts on an input with resistance:
 * -output / (output + input) (textbook, voltage divider).
 * @param output ohm, of the source
 * @param input ohm, of the load; Infinity for none
 * @returns 1, zero or below; NaN for an output below zero or an input not above it.
 */
export function loadingError(output: number, input: number): number {
  return -notBelowZero(output) / (output + aboveZero(input));
}
