import { LastPlaces } from '../reuse/last-places.ts';
import type { Cuts } from './blocks.ts';
import type { Moved } from './moved.ts';
import type { Block } from './node.ts';
import type { Taken } from './take-blocks.ts';

const places = new LastPlaces<Block>();

/** Where each block of a text starts. Nothing of it has to be shifted when a line is put in above. */
export class Starts {
  private readonly blocks: readonly Block[];
  private readonly starts: Cuts['starts'];
  private readonly moved: ReadonlyMap<Block, Moved>;

  /**
   * @param starts where the blocks stand
   * @param moved blocks that speak for some of them: these start where those do
   */
  constructor(blocks: readonly Block[], starts: Cuts['starts'], moved: ReadonlyMap<Block, Moved>) {
    this.blocks = blocks;
    this.starts = starts;
    this.moved = moved;
  }

  /** Where a block starts in the text; undefined where it is of another text or version. */
  get(block: Block): number | undefined {
    const place = this.placeOf(this.moved.get(block)?.written ?? block);
    return place < 0 ? undefined : this.starts[place];
  }

  private placeOf(block: Block): number {
    const { blocks } = this;
    return places.find(
      block,
      (place) => blocks[place] === block,
      () => blocks.indexOf(block),
    );
  }
}

/** Notes where blocks stand that are new in a text, or elsewhere than in the version before. */
export function placeBlocks({ blocks, same: [start, end] }: Taken): void {
  for (let place = start; place < blocks.length - end; place++) places.note(blocks[place] as Block, place);
}
