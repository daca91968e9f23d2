import { aboveZero, notBelowZero } from './domain.ts';

/** What a controller gives on a pulse output. Times in s, rate in Hz; absent means nothing is said. */
export interface PulseOutput {
  readonly onTime?: number;
  readonly offTime?: number;
  readonly topRate?: number;
}

/** What a drive asks for on a pulse input. Times in s, rate in Hz; absent means nothing is asked. */
export interface PulseInput {
  readonly leastOn?: number;
  readonly leastOff?: number;
  readonly topRate?: number;
}

/** How long an opto-isolated input takes to turn on and to turn off, in s. */
export interface Delays {
  readonly turnOn: number;
  readonly turnOff: number;
}

/** The time in s that the inputs' delays take away from each of the four times that a drive asks for. */
export interface Skew {
  readonly on: number;
  readonly off: number;
  readonly lead: number;
  readonly hold: number;
}

/** The skew of inputs whose sheets give no delays, and of inputs that turn on and off equally fast. */
export const NO_SKEW: Skew = { on: 0, off: 0, lead: 0, hold: 0 };

/**
 * Time from one pulse to the next: 1 / rate.
 * @param rate Hz
 * @returns s; NaN unless above zero.
 */
export function period(rate: number): number {
  return 1 / aboveZero(rate);
}

/**
 * What is left of a period when its on-time has passed. A controller with a fixed on-time makes this off-time.
 * @param rate Hz
 * @param onTime s
 * @returns s, below zero when the on-time is longer than the period; NaN for a bad rate or time.
 */
export function offTimeAt(rate: number, onTime: number): number {
  return period(rate) - notBelowZero(onTime);
}

/**
 * What the delays of the pulse and direction inputs cost. A slow turn-on shortens the pulse, a slow turn-off
 * the pause; a direction change that arrives later than the pulse shortens the lead, one that arrives sooner
 * the hold. Delays that would lengthen a time are not counted on: makers state their most, not their least.
 * Source: the definition of set-up and hold times; arithmetic of the delays.
 * @returns s each, zero or above; NaN where a delay that it depends on is below zero or NaN.
 */
export function skew(pulse: Delays, direction: Delays): Skew {
  const pulseOn = notBelowZero(pulse.turnOn);
  const pulseOff = notBelowZero(pulse.turnOff);
  const directionOn = notBelowZero(direction.turnOn);
  const directionOff = notBelowZero(direction.turnOff);
  return {
    on: Math.max(0, pulseOn - pulseOff),
    off: Math.max(0, pulseOff - pulseOn),
    lead: Math.max(0, Math.max(directionOn, directionOff) - pulseOn),
    hold: Math.max(0, pulseOn - Math.min(directionOn, directionOff)),
  };
}

/**
 * How much longer a time is than the drive asks for: given − skew − asked.
 * @param given s, by the controller
 * @param asked s, by the drive
 * @param lost s, to the skew of the inputs
 * @returns s, below zero when too short; NaN when an argument is below zero or NaN.
 */
export function margin(given: number, asked: number, lost = 0): number {
  return notBelowZero(given) - notBelowZero(lost) - notBelowZero(asked);
}

/**
 * A margin as a share of the time asked for.
 * @param spare s, as `margin` gives it
 * @param asked s, by the drive
 * @returns 1 (0.2 is 20 %); Infinity when nothing is asked and there is a margin; NaN when nothing is asked
 * and there is none, or when the asked time is below zero.
 */
export function marginShare(spare: number, asked: number): number {
  return spare / Math.abs(notBelowZero(asked));
}

/**
 * The highest pulse rate that keeps the controller's times and the drive's:
 * 1 / (max(on-time, least-on) + max(off-time, least-off)), with the drive's times lengthened by the skew, and
 * never above the top rate of either. Common practice: the period must hold both times.
 * @returns Hz; Infinity when nothing limits it; NaN when a figure is below zero or NaN.
 */
export function topPulseRate(output: PulseOutput, input: PulseInput, lost: Skew = NO_SKEW): number {
  const on = Math.max(notBelowZero(output.onTime ?? 0), askedTime(input.leastOn, lost.on));
  const off = Math.max(notBelowZero(output.offTime ?? 0), askedTime(input.leastOff, lost.off));
  const topOfOutput = notBelowZero(output.topRate ?? Number.POSITIVE_INFINITY);
  const topOfInput = notBelowZero(input.topRate ?? Number.POSITIVE_INFINITY);
  return Math.min(1 / (on + off), topOfOutput, topOfInput);
}

/** A drive that asks for no least time loses nothing to the skew either. */
function askedTime(least: number | undefined, lost: number): number {
  return least === undefined ? 0 : notBelowZero(least) + notBelowZero(lost);
}
