import type { PROMISES } from './promises.ts';

/** One measured figure with its budget, as the benchmark prints it and writes it to .cache/bench.json. */
export interface BenchRow {
  readonly what: string;
  /** The promise that is measured; absent for parts of the work, whose budgets are for those who work at them. */
  readonly promise?: keyof typeof PROMISES;
  readonly lines?: number;
  readonly value: number;
  readonly unit: string;
  readonly budget: number;
  /** What even a busy machine must keep; absent where nothing is held. */
  readonly limit?: number;
  readonly detail: string;
}
