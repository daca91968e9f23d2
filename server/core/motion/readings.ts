import { aboveZero } from './domain.ts';

/** What was asked for and what a meter showed, both in one unit. */
export interface Reading {
  readonly asked: number;
  readonly seen: number;
}

/** The straight line seen = gain × asked + offset. */
export interface Line {
  readonly gain: number;
  readonly offset: number;
}

/**
 * The line of least squares through readings, seen against asked (textbook, linear regression). Readings of one
 * asked figure only do not tell gain from offset: the line then goes through zero.
 * @returns gain 1 and offset in the unit of the readings; NaN without readings, or when none asks for anything.
 */
export function fitLine(readings: readonly Reading[]): Line {
  const asked = mean(readings.map((reading) => reading.asked));
  const seen = mean(readings.map((reading) => reading.seen));
  if (readings.every((reading) => reading.asked === readings[0]?.asked)) {
    return { gain: asked === 0 ? Number.NaN : seen / asked, offset: 0 };
  }
  const spread = mean(readings.map((reading) => (reading.asked - asked) ** 2));
  const together = mean(readings.map((reading) => (reading.asked - asked) * (reading.seen - seen)));
  const gain = together / spread;
  return { gain, offset: seen - gain * asked };
}

/**
 * The gain of least squares with the line held at zero: Σ asked × seen / Σ asked² (textbook). It is what a single
 * scale setting can correct.
 * @returns 1; NaN without readings, or when none asks for anything.
 */
export function fitGain(readings: readonly Reading[]): number {
  const squares = mean(readings.map((reading) => reading.asked ** 2));
  return mean(readings.map((reading) => reading.asked * reading.seen)) / aboveZero(squares);
}

/**
 * The top speed that readings speak of, each made with a top speed of its own keyed in: a controller puts out asked /
 * top speed of its span, so seen = real top speed × asked / keyed in, fitted by least squares through zero (textbook).
 * @param readings with the top speed that was keyed in then, all in one unit
 * @returns in that unit; NaN without readings, when none asks for anything or a top speed is not above zero.
 */
export function fitTopSpeed(readings: readonly (Reading & { readonly keyed: number })[]): number {
  return fitGain(readings.map(({ asked, seen, keyed }) => ({ asked: asked / aboveZero(keyed), seen })));
}

/**
 * The relative error (seen - asked) / asked that is farthest from zero.
 * @param readings those with nothing asked have no relative error and are passed over
 * @returns 1, with its sign; NaN when there is no reading to judge or one is NaN.
 */
export function worstError(readings: readonly Reading[]): number {
  const errors = readings.filter(({ asked }) => asked !== 0).map(({ asked, seen }) => (seen - asked) / asked);
  return errors.reduce(farther, errors[0] ?? Number.NaN);
}

/**
 * Readings as they would be once a line's error is corrected: seen becomes (seen - offset) / gain.
 * @returns NaN in each `seen` when the gain is not above zero.
 */
export function correctReadings(readings: readonly Reading[], { gain, offset }: Line): Reading[] {
  return readings.map(({ asked, seen }) => ({ asked, seen: (seen - offset) / aboveZero(gain) }));
}

/**
 * The top speed to key in so that the gain becomes 1: keyed in × gain. A controller puts out asked / top speed of
 * its span, so a spindle that runs at 0.9 of what is asked really tops out at 0.9 of what is keyed in.
 * @param keyed the top speed as now keyed in, in any unit
 * @param gain seen / asked, as `fitGain` or `fitLine` gives it
 * @returns in the unit of `keyed`; NaN unless both are above zero.
 */
export function correctedTopSpeed(keyed: number, gain: number): number {
  return aboveZero(keyed) * aboveZero(gain);
}

/**
 * The pulses per travel to key in so that an axis goes as far as asked: keyed in / gain.
 * @param keyed pulses per m (or rad) as now keyed in
 * @param gain travel seen / travel asked
 * @returns in the unit of `keyed`; NaN unless both are above zero.
 */
export function correctedPulses(keyed: number, gain: number): number {
  return aboveZero(keyed) / aboveZero(gain);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function farther(a: number, b: number): number {
  if (Number.isNaN(a) || Number.isNaN(b)) return Number.NaN;
  return Math.abs(b) > Math.abs(a) ? b : a;
}
