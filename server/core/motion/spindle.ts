import { aboveZero, notBelowZero, TURN } from './domain.ts';

/**
 * Synchronous speed of an alternating-current motor: 120 f / poles in rpm, the speed of its field (textbook).
 * @param frequency Hz
 * @param poles number of poles, twice the pole pairs
 * @returns rad/s; NaN for a frequency below zero or poles not above it.
 */
export function synchronousSpeed(frequency: number, poles: number): number {
  return (2 * TURN * notBelowZero(frequency)) / aboveZero(poles);
}

/**
 * The frequency that makes a synchronous speed, the inverse of `synchronousSpeed`.
 * @param speed rad/s
 * @param poles number of poles
 * @returns Hz; NaN for a speed below zero or poles not above it.
 */
export function frequencyAtSpeed(speed: number, poles: number): number {
  return (notBelowZero(speed) * aboveZero(poles)) / (2 * TURN);
}

/**
 * Slip, the share by which an induction motor stays behind its field: (synchronous - shaft) / synchronous (textbook).
 * @param synchronous rad/s
 * @param shaft rad/s
 * @returns 1; below zero when the shaft is driven past its field; NaN for a synchronous speed not above zero.
 */
export function slip(synchronous: number, shaft: number): number {
  return (aboveZero(synchronous) - shaft) / synchronous;
}

/**
 * Speed of a shaft that slips: synchronous × (1 - slip) (textbook).
 * @param synchronous rad/s
 * @param slipShare 1, as `slip` gives it
 * @returns rad/s; NaN for a synchronous speed below zero.
 */
export function shaftSpeed(synchronous: number, slipShare: number): number {
  return notBelowZero(synchronous) * (1 - slipShare);
}

/**
 * Time that a converter takes from one frequency to another: set time × (change / reference). Makers refer the set
 * time to the top output frequency or to the motor's rated one, so the reference is an argument.
 * Source: frequency converter manuals.
 * @param setTime s, as keyed in
 * @param from Hz
 * @param to Hz
 * @param reference Hz, the change that takes the set time
 * @returns s; NaN for a time or frequency below zero, or a reference not above it.
 */
export function rampTime(setTime: number, from: number, to: number, reference: number): number {
  const change = Math.abs(notBelowZero(to) - notBelowZero(from));
  return (notBelowZero(setTime) * change) / aboveZero(reference);
}

/**
 * What is left of the controller's wait when the spindle has come up to speed: wait - ramp.
 * @param wait s, that the controller waits before it moves on
 * @param ramp s, as `rampTime` gives it
 * @returns s, below zero when the tool would enter too early; NaN when an argument is below zero.
 */
export function waitMargin(wait: number, ramp: number): number {
  return notBelowZero(wait) - notBelowZero(ramp);
}
