/** One turn in radians. Speeds of rotation are in rad/s throughout, so turns appear only where the trade counts them. */
export const TURN = 2 * Math.PI;

/** Standard acceleration of free fall in m/s2 (3rd CGPM, 1901; NIST SP 811 App. B.8). */
export const GRAVITY = 9.80665;

/**
 * The number itself when it is above zero, NaN otherwise. Formulas pass their arguments through it, so that a
 * zero, a negative or a missing figure ends as NaN in the result and never as a number that looks sound.
 */
export function aboveZero(value: number): number {
  return value > 0 ? value : Number.NaN;
}

/** The number itself when it is zero or above, NaN otherwise. */
export function notBelowZero(value: number): number {
  return value >= 0 ? value : Number.NaN;
}

/** The whole number that a quotient misses only by binary rounding (1e-9 relative), or the quotient itself. */
export function snapToWhole(value: number): number {
  const whole = Math.round(value);
  return Math.abs(value - whole) <= 1e-9 * Math.abs(whole) ? whole : value;
}
