import { aboveZero, notBelowZero, snapToWhole } from './domain.ts';

/**
 * Relative error of a keyed-in figure: (keyed in − exact) / exact; a million times that is in ppm.
 * @param keyed as keyed in, in the unit of `exact`
 * @param exact as computed
 * @returns 1; above zero when too much is keyed in; NaN unless both are above zero.
 */
export function roundingError(keyed: number, exact: number): number {
  return (aboveZero(keyed) - aboveZero(exact)) / exact;
}

/**
 * How far an axis drifts from its true place over a travel, because of the rounding of its pulses per length:
 * travel × relative error. Above zero the axis goes too far.
 * @param keyed pulses per m (or rad) as keyed in
 * @param exact pulses per m (or rad) as computed
 * @param travel m (or rad)
 * @returns m (or rad); NaN unless the pulses are above zero and the travel is not below it.
 */
export function roundingDrift(keyed: number, exact: number, travel: number): number {
  return notBelowZero(travel) * roundingError(keyed, exact);
}

/**
 * The nearest figure with so many decimals, as a panel stores it.
 * @param decimals 0 to 15; a double keeps no more
 * @returns NaN when the value is not finite or the decimals are not a whole number from 0 to 15.
 */
export function roundToDecimals(value: number, decimals: number): number {
  const possible = Number.isFinite(value) && Number.isInteger(decimals) && decimals >= 0 && decimals <= 15;
  return possible ? Number(value.toFixed(decimals)) : Number.NaN;
}

/**
 * The nearest figure that a setting can take when it moves in steps.
 * @param step of the setting, in the unit of `value`
 * @returns NaN when the value is not finite or the step is not above zero.
 */
export function roundToStep(value: number, step: number): number {
  return Math.round(finite(value) / aboveZero(step)) * step;
}

/**
 * The least figure that a setting can take when it moves in steps and must not fall below a value.
 * @param step of the setting, in the unit of `value`
 * @returns NaN when the value is not finite or the step is not above zero.
 */
export function raiseToStep(value: number, step: number): number {
  return Math.ceil(snapToWhole(finite(value) / aboveZero(step))) * step;
}

function finite(value: number): number {
  return Number.isFinite(value) ? value : Number.NaN;
}
