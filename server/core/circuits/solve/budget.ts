import type { Circuit } from './circuit.ts';

/**
 * How much solving a machine is worth, so that no text can keep an editor waiting: about half a second at the worst.
 * A clean machine of 10,000 lines spends a tenth of it, since its groups are small.
 */
const MOST_EFFORT = 5e7;

/** Counts effort down. What it says depends on nothing but the order of the questions. */
export interface Budget {
  /** Whether a circuit may still be solved; what it costs is taken off. */
  readonly allows: (circuit: Circuit) => boolean;
}

export function createBudget(effort = MOST_EFFORT): Budget {
  let left = effort;
  return {
    allows: ({ nodes, parts, fixed }) => {
      // The square of the nodes for the matrix, and a share for every branch that has to be looked at.
      left -= nodes ** 2 + 10 * (parts.length + fixed.length);
      return left > 0;
    },
  };
}
