import { groupBy } from '../group.ts';
import type { SameEnds } from '../same-ends.ts';
import type { Cuts } from './blocks.ts';
import { type Moved, moveInto } from './moved.ts';
import type { Block } from './node.ts';
import { ownCopy } from './own-copy.ts';
import { countSameLetters } from './same-letters.ts';

/** A text as it was cut. */
export interface CutUp {
  readonly text: string;
  readonly cuts: Cuts;
  /** One for each stretch. */
  readonly blocks: readonly Block[];
}

/** The blocks of a text, and what an edit made of what: all others are those of the version before. */
export interface Taken extends CutUp {
  /** How many blocks at both ends are those of the version before. */
  readonly same: SameEnds;
  readonly fresh: readonly Block[];
  readonly gone: readonly Block[];
}

/** The blocks of a text; those of the version before wherever they are written the same. */
export function takeBlocks(text: string, cuts: Cuts, past: CutUp): Taken {
  const same = countSameCuts(past, text, cuts);
  const [start, end] = same;
  const replaced = past.blocks.slice(start, past.blocks.length - end);
  // Two places with the same text are two blocks: the n-th occurrence of a text takes the n-th block of the pool.
  const pool = groupBy(replaced, (block) => block.text);
  const between: Block[] = [];
  for (let place = start; place < cuts.kinds.length - end; place++)
    between.push(takeBlock(pool, text.slice(cuts.starts[place], cuts.starts[place + 1])));
  const known = new Set(replaced);
  const taken = new Set(between);
  return {
    text,
    cuts,
    blocks: past.blocks.slice(0, start).concat(between, past.blocks.slice(past.blocks.length - end)),
    same,
    fresh: between.filter((block) => !known.has(block)),
    gone: replaced.filter((block) => !taken.has(block)),
  };
}

/** How many stretches at both ends hold the same text, in the same sense, as in the version before. */
function countSameCuts({ text: pastText, cuts: past }: CutUp, text: string, present: Cuts): SameEnds {
  const [sameStart, sameEnd] = countSameLetters(pastText, text);
  const was = past.kinds.length;
  const is = present.kinds.length;
  const most = Math.min(was, is);
  const isSameFromStart = (place: number): boolean => {
    const to = present.starts[place + 1] ?? 0;
    return past.kinds[place] === present.kinds[place] && past.starts[place + 1] === to && to <= sameStart;
  };
  const shift = text.length - pastText.length;
  const isSameFromEnd = (place: number): boolean => {
    const from = present.starts[is - place] ?? 0;
    return (
      past.kinds[was - place] === present.kinds[is - place] &&
      (past.starts[was - place] ?? 0) + shift === from &&
      from >= text.length - sameEnd
    );
  };
  let start = 0;
  while (start < most && isSameFromStart(start)) start++;
  let end = 0;
  while (end < most - start && isSameFromEnd(end + 1)) end++;
  return [start, end];
}

function takeBlock(pool: Map<string, Block[]>, text: string): Block {
  return pool.get(text)?.shift() ?? { text: ownCopy(text) };
}

/**
 * Which blocks of the version before speak for blocks that were written anew. Whoever types a comment behind a word, or
 * blanks to stand words below one another, changes nothing of what was said.
 * @param past those that spoke for others in the version before
 */
export function keepWords({ fresh, gone }: Taken, past: ReadonlyMap<Block, Moved>): Map<Block, Moved> {
  const moved = new Map(past);
  const speakers = new Map<Block, Block>();
  const lost = new Set(gone);
  for (const [speaker, { written }] of past) {
    speakers.set(written, speaker);
    if (lost.has(written)) moved.delete(speaker);
  }
  // Where some came or went it is not known which became which, and much is another anyway.
  if (fresh.length !== gone.length) return moved;
  for (const [place, block] of fresh.entries()) {
    const before = gone[place] as Block;
    const speaker = speakers.get(before) ?? before;
    const change = moveInto(speaker, block);
    if (change) moved.set(speaker, change);
  }
  return moved;
}
