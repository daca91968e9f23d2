/** Preferred values of resistors between 10 and 100 (IEC 60063, series E12 and E24). */
const E12 = [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82] as const;
const E24 = [
  10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
] as const;

/** The usual ratings of resistors in W (common practice, no source). */
const RATINGS = [0.25, 0.5, 1, 2, 3, 5, 10] as const;

/** A resistor stays cool enough to touch at half of what it is rated for (common practice, no source). */
const POWER_RESERVE = 2;

/**
 * The least value of a series that is not below a resistance.
 * @param ohms above zero
 */
export function nextStandardValue(ohms: number, series: 'E12' | 'E24'): number {
  const values = series === 'E12' ? E12 : E24;
  const decade = 10 ** (Math.floor(Math.log10(ohms)) - 1);
  // Rounding of the quotient must not lift a value that is in the series to the next one.
  const value = values.find((each) => each * decade >= ohms * (1 - 1e-9));
  return Number(((value ?? 100) * decade).toPrecision(2));
}

/** The rating of a resistor that has to lose so many W; undefined where no usual one is enough. */
export function nextPowerRating(watts: number): number | undefined {
  return RATINGS.find((rating) => rating >= POWER_RESERVE * watts);
}
