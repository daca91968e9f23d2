import type { Moved } from './moved.ts';
import type { Block } from './node.ts';
import type { CutUp, Taken } from './take-blocks.ts';
import { type ParsedBlock, parseBlock } from './yaml-block.ts';

/** A text as it was read: what stands in the next version as it stood here is taken over by its place. */
export interface Read extends CutUp {
  /** What the block of each stretch says, or the one that speaks for it; undefined between the entries. */
  readonly said: readonly (ParsedBlock | undefined)[];
  /** How many marks the text has. */
  readonly marks: number;
}

export const NOTHING_READ: Read = {
  text: '',
  cuts: { kinds: [], starts: [] },
  blocks: [],
  said: [],
  marks: 0,
};

/**
 * What all blocks of a text say; only those are asked that an edit made.
 * @param past what those of the version before said, where blocks that are still there speak as they did
 */
export function parseTaken(
  { cuts, blocks, same }: Taken,
  moved: ReadonlyMap<Block, Moved>,
  past: Read['said'] | undefined,
): Read['said'] {
  const speakers = new Map([...moved].map(([speaker, { written }]) => [written, speaker]));
  const [start, end] = past ? same : [0, 0];
  const between = blocks.slice(start, blocks.length - end).map((block, place) => {
    if (cuts.kinds[start + place] === 'between') return undefined;
    return parseBlock(speakers.get(block) ?? block);
  });
  return past ? past.slice(0, start).concat(between, past.slice(past.length - end)) : between;
}
