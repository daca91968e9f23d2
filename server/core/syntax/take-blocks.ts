import { countSameEnds } from '../same-ends.ts';
import type { Cut } from './blocks.ts';
import { type Moved, moveInto } from './moved.ts';
import type { Block } from './node.ts';
import { ownCopy } from './own-copy.ts';
import type { Tree } from './tree.ts';

/** The blocks of a text, and what an edit made of what: all others are those of the version before. */
export interface Taken {
  readonly blocks: readonly Block[];
  readonly fresh: readonly Block[];
  readonly gone: readonly Block[];
}

/** The blocks of a text; those of the version before wherever they are written the same. */
export function takeBlocks(text: string, cuts: readonly Cut[], past: readonly Block[]): Taken {
  const [start, end] = countSameEnds(
    past,
    cuts,
    (block, { from, to }) => block.text.length === to - from && text.startsWith(block.text, from),
  );
  const replaced = past.slice(start, past.length - end);
  const pool = poolOf(replaced);
  const between = cuts
    .slice(start, cuts.length - end)
    .map(({ from, to }) => takeBlock(pool, text.slice(from, to)));
  const known = new Set(replaced);
  const taken = new Set(between);
  return {
    blocks: [...past.slice(0, start), ...between, ...past.slice(past.length - end)],
    fresh: between.filter((block) => !known.has(block)),
    gone: replaced.filter((block) => !taken.has(block)),
  };
}

/** Two places with the same text are two blocks: the n-th occurrence of a text takes the n-th block of the pool. */
function poolOf(blocks: readonly Block[]): Map<string, Block[]> {
  const pool = new Map<string, Block[]>();
  for (const block of blocks) {
    const same = pool.get(block.text);
    if (same) same.push(block);
    else pool.set(block.text, [block]);
  }
  return pool;
}

function takeBlock(pool: Map<string, Block[]>, text: string): Block {
  return pool.get(text)?.shift() ?? { text: ownCopy(text) };
}

/**
 * Which blocks of the version before speak for blocks that were written anew. Whoever types a comment behind a word, or
 * blanks to stand words below one another, changes nothing of what was said.
 * @param starts where the blocks of this version start
 * @param past those that spoke for others in the version before
 */
export function keepWords(
  { fresh, gone }: Taken,
  starts: Tree['starts'],
  past: Tree['moved'],
): Map<Block, Moved> {
  const moved = new Map(past);
  const speakers = new Map<Block, Block>();
  for (const [speaker, { written }] of past) {
    speakers.set(written, speaker);
    if (!starts.has(written)) moved.delete(speaker);
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
