import { aboveZero, snapToWhole, TURN } from './domain.ts';

/**
 * Full steps of a stepper motor in one turn: 360 deg / step angle.
 * A rotor has a whole number of steps, so the noise of the conversion to radians is taken off.
 * @param stepAngle rad
 * @returns steps per turn; NaN unless the angle is above zero.
 */
export function stepsPerTurn(stepAngle: number): number {
  return snapToWhole(TURN / aboveZero(stepAngle));
}

/**
 * Pulses that turn the motor once: full steps × microsteps.
 * @param steps full steps per turn
 * @param microsteps microsteps per full step
 * @returns pulses per turn; NaN unless both are above zero.
 */
export function pulsesPerTurn(steps: number, microsteps: number): number {
  return aboveZero(steps) * aboveZero(microsteps);
}

/**
 * Lead of a screw, the travel of its nut in one turn: pitch × starts (ISO 2901 for trapezoidal threads).
 * @param pitch m, from one thread to the next
 * @param starts number of threads side by side
 * @returns m per turn; NaN unless both are above zero.
 */
export function screwLead(pitch: number, starts: number): number {
  return aboveZero(pitch) * aboveZero(starts);
}

/**
 * Travel of a toothed belt in one turn of its pulley: pitch × teeth.
 * @param pitch m, of the belt
 * @param teeth teeth of the pulley
 * @returns m per turn; NaN unless both are above zero.
 */
export function beltTravel(pitch: number, teeth: number): number {
  return aboveZero(pitch) * aboveZero(teeth);
}

/**
 * Travel of a rack in one turn of its pinion: the pitch circle, π × module × teeth (ISO 54 modules).
 * @param module m, of a straight-toothed rack and pinion
 * @param teeth teeth of the pinion
 * @returns m per turn; NaN unless both are above zero.
 */
export function rackTravel(module: number, teeth: number): number {
  return Math.PI * aboveZero(module) * aboveZero(teeth);
}

/**
 * Angle that a worm wheel turns in one turn of its worm: one turn / ratio.
 * @param ratio worm turns for one turn of the wheel
 * @returns rad per turn; NaN unless the ratio is above zero.
 */
export function wormTravel(ratio: number): number {
  return TURN / aboveZero(ratio);
}

/**
 * Pulses for one unit of travel: pulses per turn × gearing / travel per driven turn.
 * @param pulses per turn of the motor
 * @param gearing motor turns for one driven turn
 * @param travelPerTurn m (or rad, on a rotary axis) in one driven turn
 * @returns pulses per m (or rad); NaN unless all are above zero.
 */
export function pulsesPerTravel(pulses: number, gearing: number, travelPerTurn: number): number {
  return (aboveZero(pulses) * aboveZero(gearing)) / aboveZero(travelPerTurn);
}

/**
 * The travel that one pulse makes, which is the smallest the axis can be asked for.
 * @param pulsesPerUnit pulses per m (or rad)
 * @returns m (or rad) per pulse; NaN unless above zero.
 */
export function resolution(pulsesPerUnit: number): number {
  return 1 / aboveZero(pulsesPerUnit);
}
