import { aboveZero, notBelowZero } from './domain.ts';

/** The time and the way from standstill to a feed, which are those of the way back, too. */
export interface Ramp {
  /** s */
  readonly time: number;
  /** m (or rad) */
  readonly distance: number;
}

/** A move from standstill to standstill. */
export interface Move {
  /** Whether the feed is never reached, so that the profile has no flat top. */
  readonly triangular: boolean;
  /** m/s (or rad/s), the highest speed of the move */
  readonly peak: number;
  /** of speeding up, and again of slowing down */
  readonly ramp: Ramp;
  /** s, at the peak */
  readonly cruise: number;
  /** s, of the whole move */
  readonly time: number;
}

/**
 * Ramp at constant acceleration: time v / a, distance v² / 2a (textbook).
 * @param feed m/s (or rad/s)
 * @param acceleration m/s2 (or rad/s2)
 * @returns NaN for a feed below zero or an acceleration not above it.
 */
export function rampTo(feed: number, acceleration: number): Ramp {
  const time = notBelowZero(feed) / aboveZero(acceleration);
  return { time, distance: (feed * time) / 2 };
}

/**
 * A move with equal ramps. It is a trapezoid when both ramps fit in the distance, and otherwise a triangle that
 * peaks at sqrt(a × distance) (textbook).
 * @param distance m (or rad)
 * @param feed m/s (or rad/s), not to be exceeded
 * @param acceleration m/s2 (or rad/s2)
 * @returns every number NaN for a distance below zero or a feed or acceleration not above it.
 */
export function move(distance: number, feed: number, acceleration: number): Move {
  const reachable = Math.sqrt(notBelowZero(distance) * aboveZero(acceleration));
  const allowed = aboveZero(feed);
  const peak = Math.min(allowed, reachable);
  const ramp = rampTo(peak, acceleration);
  const triangular = reachable <= allowed;
  const cruise = triangular ? 0 : (distance - 2 * ramp.distance) / peak;
  return { triangular, peak, ramp, cruise, time: 2 * ramp.time + cruise };
}

/**
 * Way to standstill: v × delay + v² / 2a (textbook). With a homing feed this is the overrun past the switch.
 * @param feed m/s (or rad/s)
 * @param acceleration m/s2 (or rad/s2), of slowing down
 * @param delay s, from the switch tripping to the start of slowing down
 * @returns m (or rad); NaN for a feed or delay below zero or an acceleration not above it.
 */
export function stoppingDistance(feed: number, acceleration: number, delay = 0): number {
  return notBelowZero(feed) * notBelowZero(delay) + rampTo(feed, acceleration).distance;
}

/**
 * The highest feed that stops within a distance, the inverse of `stoppingDistance`: a × (sqrt(t² + 2s/a) - t).
 * @param distance m (or rad), as from the switch tripping to the hard stop
 * @param acceleration m/s2 (or rad/s2), of slowing down
 * @param delay s, from the switch tripping to the start of slowing down
 * @returns m/s (or rad/s); NaN for a distance or delay below zero or an acceleration not above it.
 */
export function feedStoppingWithin(distance: number, acceleration: number, delay = 0): number {
  const reach = Math.sqrt(notBelowZero(delay) ** 2 + (2 * notBelowZero(distance)) / aboveZero(acceleration));
  return acceleration * (reach - delay);
}

/**
 * Stop with limited jerk. Where the deceleration is reached (v above a² / jerk) the time is v/a + a/jerk, and
 * otherwise 2 × sqrt(v / jerk); by symmetry the way is half of v × time in both cases (textbook, S-shaped ramp).
 * @param feed m/s (or rad/s)
 * @param acceleration m/s2 (or rad/s2), of slowing down
 * @param jerk m/s3 (or rad/s3)
 * @returns NaN for a feed below zero or another argument not above it.
 */
export function stopWithJerk(feed: number, acceleration: number, jerk: number): Ramp {
  const speed = notBelowZero(feed);
  const growth = aboveZero(acceleration) / aboveZero(jerk);
  const time = speed < acceleration * growth ? 2 * Math.sqrt(speed / jerk) : speed / acceleration + growth;
  return { time, distance: (speed * time) / 2 };
}
