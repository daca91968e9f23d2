import { MOST_READ } from '../world.ts';
import type { Tree } from './tree.ts';

/**
 * How many lines, commas and brackets are read; they bound how many values there are, and with them the time. A machine
 * of 10,000 lines has 40,000.
 */
const MOST_MARKS = 100_000;

/** Whether a text is left unread: its letters, or its marks, are more than anybody writes. */
export function isTooLong(text: string): boolean {
  return text.length > MOST_READ || (text.length > MOST_MARKS && countMarks(text) > MOST_MARKS);
}

/** By code of the letter: 1 for a mark. A table, since every letter of a long text is looked up at every key press. */
const IS_MARK = new Uint8Array(128);
for (const mark of '\n\r,[]{}') IS_MARK[mark.charCodeAt(0)] = 1;

function countMarks(text: string): number {
  let count = 0;
  for (let at = 0; at < text.length; at++) count += IS_MARK[text.charCodeAt(at)] ?? 0;
  return count;
}

/** A text that is too long to be read. Its first line stands for all of it, so that there is a place to say so. */
export function leaveUnread(text: string): Tree {
  const block = { text: /^.{0,80}/u.exec(text)?.[0] ?? '' };
  const at = { block, from: 0, to: block.text.length };
  const data = {
    what: 'text',
    letters: text.length,
    mostLetters: MOST_READ,
    marks: countMarks(text),
    mostMarks: MOST_MARKS,
  };
  return {
    text,
    root: undefined,
    problems: [{ code: 'shape/too-large', at, data }],
    blocks: [block],
    starts: new Map([[block, 0]]),
    moved: new Map(),
  };
}
