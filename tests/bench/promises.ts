/** The sizes of text that the promises are made for, in lines. */
export const SIZES = [300, 3000, 10_000] as const;
type BySize = readonly [number, number, number];

/** A figure of the built server over stdio that the project promises, for each of the sizes. */
export interface Promised {
  readonly what: string;
  readonly unit: 'ms' | 'MB' | '× parse';
  readonly budgets: BySize;
  /**
   * What was measured when somebody last looked at it, so that nothing gets worse unseen while a budget is not met. Times
   * say as much of the machine as of the server, so only what is a ratio in one run, and the memory, are held.
   */
  readonly baseline?: BySize;
}

/** How many times the baseline a measurement may be: runs of one server on one machine are up to a half apart. */
export const TOLERANCE = 2;

/** What is promised on a machine of two cores that does nothing else. */
export const PROMISES = {
  edit: { what: 'change to findings, median', unit: 'ms', budgets: [2, 3, 5] },
  slowEdit: { what: 'change to findings, 95 %', unit: 'ms', budgets: [5, 8, 12] },
  share: {
    what: 'change to findings, median',
    unit: '× parse',
    budgets: [0.6, 0.1, 0.05],
    baseline: [0.8, 0.4, 0.35],
  },
  hover: { what: 'hover right after an edit, median', unit: 'ms', budgets: [2, 3, 5] },
  completion: { what: 'completion right after an edit, median', unit: 'ms', budgets: [2, 3, 5] },
  start: { what: 'start to initialise answer', unit: 'ms', budgets: [80, 80, 80] },
  firstFindings: { what: 'start to first findings', unit: 'ms', budgets: [150, 250, 500] },
  burst: { what: 'last key of a burst to findings', unit: 'ms', budgets: [5, 8, 15] },
  peak: {
    what: 'peak memory of the server',
    unit: 'MB',
    budgets: [110, 150, 220],
    baseline: [180, 300, 500],
  },
} as const satisfies Readonly<Record<string, Promised>>;
