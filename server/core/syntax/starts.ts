import type { Cut } from './blocks.ts';
import type { Moved } from './moved.ts';
import type { Block } from './node.ts';
import type { Taken } from './take-blocks.ts';

/** Where blocks stood among those of their text when somebody last asked; in the next version they stand there or near. */
const places = new WeakMap<Block, number>();

/** An edit seldom puts in or takes out more blocks than that; those farther away are looked for among all. */
const NEAR = 16;

/** Where each block of a text starts. Nothing of it has to be shifted when a line is put in above. */
export class Starts {
  private readonly blocks: readonly Block[];
  private readonly cuts: readonly Cut[];
  private readonly moved: ReadonlyMap<Block, Moved>;

  /**
   * @param cuts where the blocks stand
   * @param moved blocks that speak for some of them: these start where those do
   */
  constructor(blocks: readonly Block[], cuts: readonly Cut[], moved: ReadonlyMap<Block, Moved>) {
    this.blocks = blocks;
    this.cuts = cuts;
    this.moved = moved;
  }

  /** Where a block starts in the text; undefined where it is of another text or version. */
  get(block: Block): number | undefined {
    const place = this.placeOf(this.moved.get(block)?.written ?? block);
    return place < 0 ? undefined : this.cuts[place]?.from;
  }

  private placeOf(block: Block): number {
    const known = places.get(block);
    if (known === undefined) return -1;
    const place = this.placeNear(block, known);
    if (place !== known && place >= 0) places.set(block, place);
    return place;
  }

  private placeNear(block: Block, known: number): number {
    const { blocks } = this;
    for (let off = 0; off <= NEAR; off++) {
      if (blocks[known + off] === block) return known + off;
      if (blocks[known - off] === block) return known - off;
    }
    return blocks.indexOf(block);
  }
}

/** Notes where blocks stand that are new in a text, or elsewhere than in the version before. */
export function placeBlocks({ blocks, same: [start, end] }: Taken): void {
  for (let place = start; place < blocks.length - end; place++) places.set(blocks[place] as Block, place);
}
