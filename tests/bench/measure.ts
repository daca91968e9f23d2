import { LineCounter, parseDocument } from 'yaml';

/** What was measured on one text, all in ms, one figure for each round. */
export interface Timings {
  readonly edit: readonly number[];
  readonly parse: readonly number[];
  readonly hover: readonly number[];
  readonly completion: readonly number[];
  /** How many findings the text has, so that nobody praises a server that finds nothing. */
  readonly findings: number;
}

export function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)];
  if (middle === undefined) throw new Error('nothing was measured');
  return middle;
}

/** The value that a share of the values, in percent, does not exceed. */
export function percentileOf(values: readonly number[], percent: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  const value = sorted[Math.min(sorted.length - 1, Math.ceil((sorted.length * percent) / 100) - 1)];
  if (value === undefined) throw new Error('nothing was measured');
  return value;
}

/** Times one run, in ms. */
export function time(run: () => unknown): number {
  const from = performance.now();
  run();
  return performance.now() - from;
}

/** The yardstick: the general-purpose parse that a plain design would do on every edit, in ms. */
export function timeParse(text: string): number {
  const lineCounter = new LineCounter();
  return time(() => parseDocument(text, { lineCounter }));
}
