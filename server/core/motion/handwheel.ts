import { aboveZero, notBelowZero, TURN } from './domain.ts';

/** Edges that two channels in quadrature make in one cycle, all of which are counted. */
export const EDGES_PER_CYCLE = 4;

/**
 * Counts that an encoder makes in one turn: 4 × cycles of one channel (data sheets, quadrature).
 * @param cycles of one channel per turn; makers print them as pulses or lines
 * @returns counts per turn; NaN unless above zero.
 */
export function countsPerTurn(cycles: number): number {
  return EDGES_PER_CYCLE * aboveZero(cycles);
}

/**
 * Frequency of one channel of an encoder: cycles per turn × speed / 2π.
 * @param cycles of one channel per turn
 * @param speed rad/s
 * @returns Hz; NaN for cycles not above zero or a speed below it.
 */
export function channelFrequency(cycles: number, speed: number): number {
  return (aboveZero(cycles) * notBelowZero(speed)) / TURN;
}

/**
 * Counts that an encoder makes from one click to the next.
 * @param counts per turn
 * @param detents clicks per turn
 * @returns counts per click, a fraction when clicks and counts do not fit each other; NaN unless both are above zero.
 */
export function countsPerDetent(counts: number, detents: number): number {
  return aboveZero(counts) / aboveZero(detents);
}

/**
 * Travel that one click asks for.
 * @param step m (or rad) for a click at ×1
 * @param multiplier of the wheel's switch: 1, 10 or 100
 * @returns m (or rad); NaN unless both are above zero.
 */
export function stepPerDetent(step: number, multiplier: number): number {
  return aboveZero(step) * aboveZero(multiplier);
}

/**
 * Feed that a spinning wheel asks for: turns per second × clicks × step × multiplier.
 * @param spin rad/s, of the wheel
 * @param detents clicks per turn
 * @param step m (or rad) for a click at ×1
 * @param multiplier of the wheel's switch: 1, 10 or 100
 * @returns m/s (or rad/s); NaN for a spin below zero or when another argument is not above it.
 */
export function feedOfSpin(spin: number, detents: number, step: number, multiplier: number): number {
  return (notBelowZero(spin) / TURN) * aboveZero(detents) * stepPerDetent(step, multiplier);
}
