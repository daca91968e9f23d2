import { aboveZero, notBelowZero, TURN } from './domain.ts';

/** Share of its critical speed at which a screw may be run; makers' catalogues build this factor into theirs. */
export const CRITICAL_SPEED_SHARE = 0.8;

/**
 * The feed that a pulse rate makes: rate / pulses per unit of travel.
 * @param rate Hz
 * @param pulsesPerUnit pulses per m (or rad)
 * @returns m/s (or rad/s); NaN for a rate below zero or pulses not above zero; Infinity for an unlimited rate.
 */
export function feedAtPulseRate(rate: number, pulsesPerUnit: number): number {
  return notBelowZero(rate) / aboveZero(pulsesPerUnit);
}

/**
 * The pulse rate that a feed needs: feed × pulses per unit of travel.
 * @param feed m/s (or rad/s)
 * @param pulsesPerUnit pulses per m (or rad)
 * @returns Hz; NaN for a feed below zero or pulses not above zero.
 */
export function pulseRateAtFeed(feed: number, pulsesPerUnit: number): number {
  return notBelowZero(feed) * aboveZero(pulsesPerUnit);
}

/**
 * The motor's speed at a feed: feed × gearing / travel per driven turn. An acceleration of the axis
 * (m/s2) gives the motor's angular acceleration (rad/s2) in the same way; gearing 1 gives the driven part's.
 * @param feed m/s (or rad/s)
 * @param travelPerTurn m (or rad) in one driven turn
 * @param gearing motor turns for one driven turn
 * @returns rad/s; NaN for a feed below zero or when another argument is not above zero.
 */
export function motorSpeed(feed: number, travelPerTurn: number, gearing: number): number {
  return (TURN * notBelowZero(feed) * aboveZero(gearing)) / aboveZero(travelPerTurn);
}

/**
 * The feed at a motor's speed, the inverse of `motorSpeed`.
 * @param speed rad/s, of the motor
 * @param travelPerTurn m (or rad) in one driven turn
 * @param gearing motor turns for one driven turn
 * @returns m/s (or rad/s); NaN for a speed below zero or when another argument is not above zero.
 */
export function feedAtMotorSpeed(speed: number, travelPerTurn: number, gearing: number): number {
  return (notBelowZero(speed) * aboveZero(travelPerTurn)) / (TURN * aboveZero(gearing));
}

/**
 * The feed at which a screw reaches the share of its critical speed that makers allow.
 * @param criticalSpeed rad/s, the speed at which the screw whips
 * @param lead m per turn
 * @returns m/s; NaN unless both are above zero.
 */
export function feedAtCriticalSpeed(criticalSpeed: number, lead: number): number {
  return feedAtMotorSpeed(CRITICAL_SPEED_SHARE * aboveZero(criticalSpeed), lead, 1);
}

/**
 * Top speed of a ball nut by its DN figure: DN / diameter of the ball circle.
 * @param dn m rad/s; a printed DN of 70 000 (mm × rpm) is 0.001 m × 70 000 × 2π / 60 s
 * @param ballCircle m, between centres of opposite balls
 * @returns rad/s; NaN unless both are above zero.
 */
export function nutTopSpeed(dn: number, ballCircle: number): number {
  return aboveZero(dn) / aboveZero(ballCircle);
}
