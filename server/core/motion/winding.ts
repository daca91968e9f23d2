import { aboveZero, notBelowZero, TURN } from './domain.ts';

/** Peak of a sine wave for each unit of its RMS value; a two-phase stepper's phase currents are sines. */
export const PEAK_PER_RMS = Math.SQRT2;

/**
 * Electrical time constant of a winding: inductance / resistance (textbook, RL circuit).
 * @param inductance H
 * @param resistance ohm
 * @returns s; NaN unless both are above zero.
 */
export function timeConstant(inductance: number, resistance: number): number {
  return aboveZero(inductance) / aboveZero(resistance);
}

/**
 * Share of its final current that a winding has reached some time after it was switched on:
 * 1 - exp(-time / time constant) (textbook, RL circuit).
 * @param time s, since switching on
 * @param constant s, the winding's time constant
 * @returns 0 to 1; NaN for a time below zero or a constant not above zero.
 */
export function currentShare(time: number, constant: number): number {
  return -Math.expm1(-notBelowZero(time) / aboveZero(constant));
}

/**
 * Time that a winding's current takes to a share of its final value, the inverse of `currentShare`.
 * @param share 0 to 1 of the final current
 * @param constant s, the winding's time constant
 * @returns s; Infinity for a share of 1, which is never quite reached; NaN for a share outside 0 to 1.
 */
export function timeToCurrentShare(share: number, constant: number): number {
  return share <= 1 ? -Math.log1p(-notBelowZero(share)) * aboveZero(constant) : Number.NaN;
}

/**
 * The least time of one full step: the supply reverses the phase current from -I to +I in 2 L I / V.
 * Common practice; the winding's resistance and the voltage that its motion induces are left out.
 * @param voltage V, of the drive's supply
 * @param inductance H, of a phase
 * @param current A, peak of a phase
 * @returns s; NaN unless all are above zero.
 */
export function leastStepTime(voltage: number, inductance: number, current: number): number {
  return (2 * aboveZero(inductance) * aboveZero(current)) / aboveZero(voltage);
}

/**
 * Corner speed of a stepper motor, above which its current no longer reaches the set value in a step and its
 * torque falls: V / (2 L I × steps per turn). Common practice.
 * @param voltage V, of the drive's supply
 * @param inductance H, of a phase
 * @param current A, peak of a phase
 * @param steps full steps per turn
 * @returns rad/s; NaN unless all are above zero.
 */
export function cornerSpeed(voltage: number, inductance: number, current: number, steps: number): number {
  return TURN / (leastStepTime(voltage, inductance, current) * aboveZero(steps));
}

/**
 * Highest supply voltage that a stepper motor is usually run from: 32 × sqrt(inductance in mH).
 * Common practice, without a source; advice only, the drive's own limit comes first.
 * @param inductance H, of a phase
 * @returns V; NaN unless above zero.
 */
export function usualTopVoltage(inductance: number): number {
  return 32 * Math.sqrt(aboveZero(inductance) * 1000);
}

/**
 * Current that a supply is usually rated for when it feeds stepper motors through chopper drives: two thirds
 * of the sum of their phase currents. Common practice, without a source.
 * @param phaseCurrents A, set for each motor
 * @returns A; 0 for no motors; NaN when a current is below zero or NaN.
 */
export function usualSupplyCurrent(phaseCurrents: readonly number[]): number {
  return (2 / 3) * phaseCurrents.reduce((sum, current) => sum + notBelowZero(current), 0);
}
