import { aboveZero, notBelowZero, TURN } from './domain.ts';

/** How the two ends of a screw are held; a supported end can tilt, a fixed one cannot. */
export type Ends = 'fixed-free' | 'supported-supported' | 'fixed-supported' | 'fixed-fixed';

/**
 * First root of the frequency equation of a beam with such ends (textbook, bending of a uniform beam; digits as
 * printed in makers' ball screw catalogues).
 */
const VIBRATION_ROOT: Readonly<Record<Ends, number>> = {
  'fixed-free': 1.875,
  'supported-supported': Math.PI,
  'fixed-supported': 3.927,
  'fixed-fixed': 4.73,
};

/** Euler's factor of a column with such ends (textbook; makers' ball screw catalogues). */
const COLUMN_FACTOR: Readonly<Record<Ends, number>> = {
  'fixed-free': 0.25,
  'supported-supported': 1,
  'fixed-supported': 2,
  'fixed-fixed': 4,
};

/** What a screw is made of. */
export interface Material {
  /** Pa */
  readonly stiffness: number;
  /** kg/m3 */
  readonly density: number;
  /** Pa, the stress that may be put on it along its length */
  readonly stress: number;
}

/** Steel, with the figures that makers of ball screws calculate with. */
export const STEEL: Material = { stiffness: 206e9, density: 7800, stress: 147e6 };

/** Share of Euler's load that makers of ball screws allow. */
export const BUCKLING_SHARE = 0.5;

/**
 * Critical speed of a screw, at which it whips: λ² × sqrt(E I / (ρ A)) / length², which for a round bar is
 * λ² × root diameter × sqrt(E / ρ) / (4 length²). This is the speed itself; a share of it may be used (see feed.ts).
 * Source: textbook (bending of a uniform beam); makers' ball screw catalogues.
 * @param root m, minor diameter of the thread
 * @param length m, between the supports; on a fixed-free screw from the fixed end to the nut or the tip
 * @returns rad/s; NaN unless both are above zero.
 */
export function screwCriticalSpeed(root: number, length: number, ends: Ends, material = STEEL): number {
  const speedOfSound = Math.sqrt(aboveZero(material.stiffness) / aboveZero(material.density));
  return (VIBRATION_ROOT[ends] ** 2 * aboveZero(root) * speedOfSound) / (4 * aboveZero(length) ** 2);
}

/**
 * Load along a screw that it bears without buckling: half of Euler's n π² E I / length², with I = π root^4 / 64.
 * Source: Euler's column; makers' ball screw catalogues for the half. Short screws are limited by stress instead.
 * @param root m, minor diameter of the thread
 * @param length m, between the points where the load goes in and out
 * @returns N; NaN unless both are above zero.
 */
export function screwBucklingLoad(root: number, length: number, ends: Ends, material = STEEL): number {
  const secondMoment = (Math.PI / 64) * aboveZero(root) ** 4;
  const bending = aboveZero(material.stiffness) * secondMoment;
  return (BUCKLING_SHARE * COLUMN_FACTOR[ends] * Math.PI ** 2 * bending) / aboveZero(length) ** 2;
}

/**
 * Load along a screw that its material bears: stress × π/4 × root² (makers' ball screw catalogues).
 * @param root m, minor diameter of the thread
 * @returns N; NaN unless above zero.
 */
export function screwStressLoad(root: number, material = STEEL): number {
  return aboveZero(material.stress) * (Math.PI / 4) * aboveZero(root) ** 2;
}

/**
 * Angle by which a thread rises: atan(lead / (π × mean diameter)) (textbook).
 * @param lead m per turn
 * @param meanDiameter m
 * @returns rad; NaN unless both are above zero.
 */
export function leadAngle(lead: number, meanDiameter: number): number {
  return Math.atan(aboveZero(lead) / (Math.PI * aboveZero(meanDiameter)));
}

/** A sliding thread, as on a trapezoidal lead screw. */
export interface Thread {
  /** m */
  readonly meanDiameter: number;
  /** m per turn */
  readonly lead: number;
  /** coefficient of friction between screw and nut */
  readonly friction: number;
  /** rad, half the angle between flanks: 0 for a square thread, 15 deg for a metric trapezoidal one */
  readonly halfAngle: number;
}

/**
 * Torque that moves a load against a sliding thread: F d/2 × (l + π μ d sec α) / (π d - μ l sec α).
 * Source: Shigley, Mechanical Engineering Design, power screws.
 * @param force N
 * @returns N.m; NaN for a diameter, lead or force not above zero or a friction below it; Infinity when the thread jams.
 */
export function raisingTorque(force: number, thread: Thread): number {
  const { around, friction, lead } = unroll(thread);
  const climb = (lead + friction * around) / Math.max(0, around - friction * lead);
  return aboveZero(force) * (thread.meanDiameter / 2) * climb;
}

/**
 * Torque that moves a load with it, down a sliding thread: F d/2 × (π μ d sec α - l) / (π d + μ l sec α).
 * Source: Shigley, Mechanical Engineering Design, power screws.
 * @param force N
 * @returns N.m; below zero when the load drives the screw back by itself; NaN as for `raisingTorque`.
 */
export function loweringTorque(force: number, thread: Thread): number {
  const { around, friction, lead } = unroll(thread);
  const descent = (friction * around - lead) / (around + friction * lead);
  return aboveZero(force) * (thread.meanDiameter / 2) * descent;
}

/** One turn of a thread laid flat: the way around, the rise, and the friction as the slanted flank makes it. */
function unroll(thread: Thread) {
  const around = Math.PI * aboveZero(thread.meanDiameter);
  const friction = notBelowZero(thread.friction) / aboveZero(Math.cos(thread.halfAngle));
  return { around, friction, lead: aboveZero(thread.lead) };
}

/**
 * Torque that rubs at a plain thrust collar: F × friction × mean diameter / 2.
 * Source: Shigley, Mechanical Engineering Design, power screws.
 * @param force N
 * @param friction coefficient of the collar
 * @param meanDiameter m, of the collar
 * @returns N.m; NaN when an argument is not above zero.
 */
export function collarTorque(force: number, friction: number, meanDiameter: number): number {
  return (aboveZero(force) * aboveZero(friction) * aboveZero(meanDiameter)) / 2;
}

/**
 * Efficiency of a screw: what its load would take without friction, F l / 2π, over the torque it takes.
 * @param force N
 * @param lead m per turn
 * @param torque N.m, all that the load takes at the screw
 * @returns 0 to 1; NaN unless all are above zero.
 */
export function screwEfficiency(force: number, lead: number, torque: number): number {
  return (aboveZero(force) * aboveZero(lead)) / (TURN * aboveZero(torque));
}
