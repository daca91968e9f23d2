import type { Block } from './node.ts';
import type { Taken } from './take-blocks.ts';

/**
 * How many lines, commas and brackets are read; they bound how many values there are, and with them the time. A machine
 * of 10,000 lines has 40,000.
 */
export const MOST_MARKS = 100_000;

/** By code of the letter: 1 for a mark. A table, since every letter of a long text is looked up. */
const IS_MARK = new Uint8Array(128);
for (const mark of '\n\r,[]{}') IS_MARK[mark.charCodeAt(0)] = 1;

/** How many marks a text has. */
export function countMarks(text: string): number {
  let count = 0;
  for (let at = 0; at < text.length; at++) count += IS_MARK[text.charCodeAt(at)] ?? 0;
  return count;
}

/**
 * How many marks a text has of which an edit made another one: only those of what went and came are counted.
 * @param before how many it had
 */
export function countMarksAgain({ fresh, gone }: Taken, before: number): number {
  const sumOf = (blocks: readonly Block[]) => blocks.reduce((sum, { text }) => sum + countMarks(text), 0);
  return before + sumOf(fresh) - sumOf(gone);
}

/** Whether that is more than anybody writes, so that the text is left unread. */
export const hasTooManyMarks = (marks: number): boolean => marks > MOST_MARKS;
