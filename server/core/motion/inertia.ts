import { aboveZero, notBelowZero, TURN } from './domain.ts';

/**
 * Inertia of a round bar about its axis: π/32 × density × length × diameter^4 (textbook; makers' catalogues).
 * @param density kg/m3
 * @param length m
 * @param diameter m
 * @returns kg.m2; NaN unless all are above zero.
 */
export function barInertia(density: number, length: number, diameter: number): number {
  return (Math.PI / 32) * aboveZero(density) * aboveZero(length) * aboveZero(diameter) ** 4;
}

/**
 * Inertia of a full disc (coupling, pulley, pinion) about its axis: mass × diameter² / 8 (textbook).
 * @param mass kg
 * @param diameter m
 * @returns kg.m2; NaN for a mass below zero or a diameter not above it.
 */
export function discInertia(mass: number, diameter: number): number {
  return (notBelowZero(mass) * aboveZero(diameter) ** 2) / 8;
}

/**
 * Inertia that a mass in straight motion has at the part that drives it: mass × (travel per turn / 2π)². For a belt
 * or rack this is mass × pitch diameter² / 4. Source: makers' catalogues (screws, couplings), from kinetic energy.
 * @param mass kg
 * @param travelPerTurn m in one driven turn
 * @returns kg.m2 at the driven part; NaN for a mass below zero or a travel not above it.
 */
export function massInertia(mass: number, travelPerTurn: number): number {
  return notBelowZero(mass) * (aboveZero(travelPerTurn) / TURN) ** 2;
}

/**
 * All inertia that the motor has to speed up: rotor + driven / gearing² (textbook, from kinetic energy).
 * @param rotor kg.m2, of the motor and what sits on its shaft
 * @param driven kg.m2, at the driven part
 * @param gearing motor turns for one driven turn
 * @returns kg.m2 at the motor; NaN for an inertia below zero or a gearing not above it.
 */
export function inertiaAtMotor(rotor: number, driven: number, gearing: number): number {
  return notBelowZero(rotor) + notBelowZero(driven) / aboveZero(gearing) ** 2;
}
