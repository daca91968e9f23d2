/**
 * The interval that holds the share of all with 95 % certainty, from a sample (Wilson, "Probable inference, the law of
 * succession, and statistical inference", JASA 22, 1927), in a finite whole: a sample of everything has none.
 */
export function intervalOf(hits: number, sample: number, whole: number): readonly [from: number, to: number] {
  if (sample === 0) return [0, 1];
  const share = hits / sample;
  if (sample >= whole) return [share, share];
  // Drawn without putting back, so the sample says more than its number: n becomes n (N - 1) / (N - n).
  const n = (sample * (whole - 1)) / (whole - sample);
  const z = 1.96;
  const middle = (share + z ** 2 / (2 * n)) / (1 + z ** 2 / n);
  const half = (z / (1 + z ** 2 / n)) * Math.sqrt((share * (1 - share)) / n + z ** 2 / (4 * n ** 2));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}
