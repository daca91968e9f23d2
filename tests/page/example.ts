import type { SummaryItem } from '../../server/core/summary/summary.ts';
import { analyseExample, fettle } from '../core/features/example.ts';
import { readExample } from '../support/example.ts';

/** The summary of the example as the server gives it, perhaps with some words of its text changed. */
export function exampleItems(
  ...changes: readonly (readonly [from: string, to: string])[]
): readonly SummaryItem[] {
  if (changes.length === 0) return fettle.summary(analyseExample()).items;
  let text = readExample();
  for (const [from, to] of changes) {
    if (!text.includes(from)) throw new Error(`not in the example: ${from}`);
    text = text.replaceAll(from, to);
  }
  return fettle.summary(fettle.analyse('gantry-router.machine.yaml', text)).items;
}
