import { MOST_READ } from '../world.ts';
import type { Block } from './node.ts';
import type { Tree } from './tree.ts';

/**
 * How many lines, commas and brackets are read; they bound how many values there are, and with them the time. A machine
 * of 10,000 lines has 40,000.
 */
const MOST_MARKS = 100_000;

/** By code of the letter: 1 for a mark. A table, since every letter of a long text is looked up. */
const IS_MARK = new Uint8Array(128);
for (const mark of '\n\r,[]{}') IS_MARK[mark.charCodeAt(0)] = 1;

/** Whether a text is left unread because it has more letters than anybody writes. */
export const hasTooManyLetters = (text: string): boolean => text.length > MOST_READ;

/** Whether the blocks of a text have more marks than anybody writes, so that the text is left unread. */
export function hasTooManyMarks(text: string, blocks: readonly Block[]): boolean {
  return text.length > MOST_MARKS && blocks.reduce((sum, block) => sum + marksOf(block), 0) > MOST_MARKS;
}

/** The marks of a block are counted once, since most blocks stay through an edit. */
const counted = new WeakMap<Block, number>();

function marksOf(block: Block): number {
  let marks = counted.get(block);
  if (marks === undefined) {
    marks = countMarks(block.text);
    counted.set(block, marks);
  }
  return marks;
}

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
