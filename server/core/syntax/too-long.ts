import { MOST_READ } from '../world.ts';
import { countMarks, MOST_MARKS } from './marks.ts';
import { NOTHING_READ } from './read.ts';
import type { Tree } from './tree.ts';

/** Whether a text is left unread because it has more letters than anybody writes. */
export const hasTooManyLetters = (text: string): boolean => text.length > MOST_READ;

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
    read: NOTHING_READ,
  };
}
