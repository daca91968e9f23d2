import { aboveZero, GRAVITY, notBelowZero, TURN } from './domain.ts';

/** Torque that a stepper motor run without feedback should have for each newton metre it needs: common practice. */
export const USUAL_TORQUE_FACTOR = 2;

/**
 * Force that an axis must push with at steady feed: mass × g × (sin incline + friction × cos incline) + cutting
 * force (textbook, inclined plane). What the acceleration of the mass takes is in the inertia.
 * @param mass kg, moved
 * @param incline rad, 0 for a level axis, π/2 for an upright one, below zero when the wanted feed goes downhill
 * @param friction coefficient of the guides
 * @param force N, of the cut along the axis
 * @returns N, below zero when the load drives the axis; NaN for a mass, friction or force below zero.
 */
export function thrust(mass: number, incline: number, friction: number, force: number): number {
  const slope = Math.sin(incline) + notBelowZero(friction) * Math.cos(incline);
  return notBelowZero(mass) * GRAVITY * slope + notBelowZero(force);
}

/**
 * Motor torque that a steady thrust takes: thrust × travel per turn / (2π × efficiency × gearing).
 * Source: makers' catalogues of screws and servo motors (T = F × lead / 2πη), textbooks for the power screw.
 * @param force N along the axis (or N.m on a rotary axis)
 * @param travelPerTurn m (or rad) in one driven turn
 * @param efficiency 0 to 1, of the carrier and its gearing
 * @param gearing motor turns for one driven turn
 * @returns N.m at the motor; NaN unless all but the force are above zero.
 */
export function loadTorque(
  force: number,
  travelPerTurn: number,
  efficiency: number,
  gearing: number,
): number {
  return (force * aboveZero(travelPerTurn)) / (TURN * aboveZero(efficiency) * aboveZero(gearing));
}

/**
 * Motor torque that speeds up an inertia: J × angular acceleration (Newton's second law).
 * @param inertia kg.m2, all of it, at the motor
 * @param angularAcceleration rad/s2, of the motor
 * @returns N.m; NaN when an argument is below zero.
 */
export function accelerationTorque(inertia: number, angularAcceleration: number): number {
  return notBelowZero(inertia) * notBelowZero(angularAcceleration);
}

/**
 * Torque of a stepper motor that stands still, with the current that the drive is set to: holding torque ×
 * set / rated current, and not above the holding torque, since iron that is full gives no more.
 * Common practice: torque is taken as proportional to current.
 * @param holdingTorque N.m
 * @param setCurrent A, in the same basis (peak or RMS) as the rated one
 * @param ratedCurrent A
 * @returns N.m; NaN unless torque and rated current are above zero and the set one is not below it.
 */
export function standstillTorque(holdingTorque: number, setCurrent: number, ratedCurrent: number): number {
  return aboveZero(holdingTorque) * Math.min(1, notBelowZero(setCurrent) / aboveZero(ratedCurrent));
}

/**
 * Torque of a stepper motor at a speed: flat to the corner speed, then falling as corner speed / speed, which is
 * constant power. Common practice; the maker's curve, where there is one, is better.
 * @param standstill N.m, as `standstillTorque` gives it
 * @param corner rad/s
 * @param speed rad/s, of the motor
 * @returns N.m; NaN for a corner not above zero, or another argument below it.
 */
export function torqueAtSpeed(standstill: number, corner: number, speed: number): number {
  return notBelowZero(standstill) * Math.min(1, aboveZero(corner) / Math.abs(notBelowZero(speed)));
}

/**
 * The highest speed at which a stepper motor still has so many times the torque needed. The torque curve
 * standstill × corner / speed = factor × needed is solved for the speed.
 * @param standstill N.m, as `standstillTorque` gives it
 * @param corner rad/s
 * @param needed N.m, at that speed
 * @param factor of safety; 2 is usual for open loop
 * @returns rad/s; 0 when the motor is too weak at any speed; Infinity when nothing is needed; NaN when there is
 * no torque and none is needed, for a corner or factor not above zero, or another argument below it.
 */
export function usableSpeed(
  standstill: number,
  corner: number,
  needed: number,
  factor = USUAL_TORQUE_FACTOR,
): number {
  const surplus = notBelowZero(standstill) / Math.abs(notBelowZero(needed) * aboveZero(factor));
  return (surplus < 1 ? 0 : surplus) * aboveZero(corner);
}

/**
 * How many times the torque needed a motor has.
 * @param available N.m
 * @param needed N.m
 * @returns 1; Infinity when nothing is needed; NaN when there is nothing of either, or one is below zero.
 */
export function torqueMargin(available: number, needed: number): number {
  return notBelowZero(available) / Math.abs(notBelowZero(needed));
}

/**
 * Torque that holds a stepper motor within one microstep: holding torque × sin(90 deg / microsteps). Below the
 * load's friction a single microstep moves nothing.
 * Source: Machine Design, "Microstepping: Myths and Realities" (incremental torque per microstep).
 * @param holdingTorque N.m
 * @param microsteps per full step, 1 or more
 * @returns N.m; NaN for a torque below zero or fewer microsteps than one.
 */
export function microstepTorque(holdingTorque: number, microsteps: number): number {
  return microsteps >= 1 ? notBelowZero(holdingTorque) * Math.sin(TURN / 4 / microsteps) : Number.NaN;
}

/**
 * Power of a turning shaft: torque × speed (textbook).
 * @param torque N.m
 * @param speed rad/s
 * @returns W; NaN when an argument is NaN.
 */
export function shaftPower(torque: number, speed: number): number {
  return torque * speed;
}
