import type { Group } from './groups.ts';

/**
 * How much solving a machine is worth, so that no text can keep an editor waiting or fill its memory: about half a
 * second at the worst. A clean machine of 10,000 lines spends a tenth of it, since its groups are small.
 */
const MOST_EFFORT = 5e7;

/** Counts effort down. What it says depends on nothing but the order of the questions. */
export interface Budget {
  /** Whether a group may be solved once more; what that costs is taken off. */
  readonly allows: (group: Group) => boolean;
  /** Whether something was refused. */
  readonly isSpent: () => boolean;
}

export function createBudget(effort = MOST_EFFORT): Budget {
  let left = effort;
  return {
    allows: ({ nodes, elements, wires }) => {
      // The square of the nodes for the matrix, and a share for every branch that has to be laid out and looked at.
      left -= nodes.length ** 2 + 50 * (elements.length + wires.length);
      return left > 0;
    },
    isSpent: () => left <= 0,
  };
}
