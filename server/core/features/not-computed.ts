import type { Analysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import { titleOf } from './markdown.ts';

/** What is lacking, and everything that is not computed for want of it. */
export interface NotComputed {
  /** In words: `the controller's direction hold`. */
  readonly needs: string;
  /** The values in words, in the order of the machine: `hold margin of X`. */
  readonly values: readonly string[];
}

/**
 * What could be computed of a machine if more were written down, by what is lacking. Values that have nothing to be
 * computed from as things stand, such as the correction of a measurement that agrees, are no lack.
 */
export function listNotComputed({ values }: Analysis): readonly NotComputed[] {
  const byNeed = new Map<string, string[]>();
  for (const { address, needs, moot } of values.missing.values()) {
    if (moot) continue;
    const titles = byNeed.get(needs);
    if (titles) titles.push(titleOf(address));
    else byNeed.set(needs, [titleOf(address)]);
  }
  return [...byNeed].map(([needs, titles]) => ({ needs, values: titles }));
}

/** One line for each thing that is lacking: `without the nut's top speed: nut speed limit of X and of Z`. */
export function sayNotComputed({ needs, values }: NotComputed): string {
  const shown = values.slice(0, MOST_SHOWN);
  const more = values.length - shown.length;
  return say`${shown.join(', ')}${more > 0 ? say` and ${more} more` : ''}: needs ${needs}`;
}

const MOST_SHOWN = 6;
