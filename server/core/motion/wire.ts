import { aboveZero, notBelowZero } from './domain.ts';

/** Resistivity of standard annealed copper at 20 C in ohm m (IEC 60028, 100 % IACS). */
export const COPPER_RESISTIVITY = 1.7241e-8;

/** Share by which copper's resistance at 20 C grows with each kelvin (IEC 60028). */
export const COPPER_RISE = 0.00393;

/**
 * Diameter of a solid wire by its AWG number: 0.127 mm × 92^((36 - number) / 39), which defines the gauge (ASTM B258).
 * @param gauge AWG number; 0 for 1/0, -1 for 2/0 and so on
 * @returns m; NaN when the number is NaN.
 */
export function awgDiameter(gauge: number): number {
  return 0.127e-3 * 92 ** ((36 - gauge) / 39);
}

/**
 * Cross-section of a solid wire by its AWG number: π/4 × diameter² (ASTM B258).
 * @param gauge AWG number; 0 for 1/0, -1 for 2/0 and so on
 * @returns m2; NaN when the number is NaN.
 */
export function awgArea(gauge: number): number {
  return (Math.PI / 4) * awgDiameter(gauge) ** 2;
}

/**
 * Resistance per length of copper of a true cross-section at 20 C: resistivity / area (IEC 60028).
 * @param area m2, of the copper itself, as of a gauge number; for a nominal metric size see `sizeResistance`
 * @returns ohm/m; NaN unless above zero.
 */
export function copperResistance(area: number): number {
  return COPPER_RESISTIVITY / aboveZero(area);
}

/** Greatest resistance of fine-stranded conductors at 20 C: nominal mm2, ohm/km plain, ohm/km tinned. */
type SizeRow = readonly [size: number, plain: number, tinned: number];

/**
 * IEC 60228 class 5, as cable makers' pages print it. From memory, not read there: 0.5, 1.5 and 6 mm2 tinned,
 * 1 and 4 mm2 plain, and all from 10 mm2 up.
 * The standard starts at 0.5 mm2; 0.25 and 0.34 mm2 are from an extract of DIN VDE 0295, plain only, good to 5 %.
 */
const CLASS_5: readonly SizeRow[] = [
  [0.25, 76, 76],
  [0.34, 53, 53],
  [0.5, 39, 40.1],
  [0.75, 26, 26.7],
  [1, 19.5, 20],
  [1.5, 13.3, 13.7],
  [2.5, 7.98, 8.21],
  [4, 4.95, 5.09],
  [6, 3.3, 3.39],
  [10, 1.91, 1.95],
  [16, 1.21, 1.24],
  [25, 0.78, 0.795],
  [35, 0.554, 0.565],
];

/** No row of the table exceeds resistivity / nominal area by more, so sizes outside it are not made to look good. */
const GREATEST_EXCESS = 1.2;

/**
 * Greatest resistance per length of a fine-stranded copper conductor at 20 C by its nominal size (IEC 60228
 * class 5). The strands of a nominal size hold less copper than its name says, so this is a table and no formula;
 * a size outside it is taken as its nominal area with the greatest excess of the table on top.
 * @param size m2, nominal
 * @param tinned whether the strands are tinned
 * @returns ohm/m; NaN unless the size is above zero.
 */
export function sizeResistance(size: number, tinned = false): number {
  const row = CLASS_5.find(([listed]) => Math.abs(size / (listed * 1e-6) - 1) < 1e-6);
  if (row === undefined) return GREATEST_EXCESS * copperResistance(size);
  return (tinned ? row[2] : row[1]) / 1000;
}

/**
 * Resistance of a conductor at a temperature: R20 × (1 + rise × (t - 20)) (IEC 60028).
 * @param resistance ohm or ohm/m, at the reference temperature
 * @param temperature deg C
 * @param rise 1/K, referred to the reference temperature
 * @param reference deg C
 * @returns in the unit of `resistance`; NaN for a resistance below zero, or a temperature so low that nothing is left.
 */
export function resistanceAt(
  resistance: number,
  temperature: number,
  rise = COPPER_RISE,
  reference = 20,
): number {
  return notBelowZero(resistance) * aboveZero(1 + rise * (temperature - reference));
}

/**
 * Voltage lost in a pair of conductors, there and back: 2 × length × current × resistance per length (textbook).
 * @param perLength ohm/m, of one conductor
 * @param length m, one way
 * @param current A
 * @returns V; NaN when an argument is below zero.
 */
export function dropThereAndBack(perLength: number, length: number, current: number): number {
  return 2 * notBelowZero(perLength) * notBelowZero(length) * notBelowZero(current);
}
