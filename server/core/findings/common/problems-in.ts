import type { Analysis } from '../../analysis.ts';
import { groupBy } from '../../group.ts';
import type { Problem } from '../../problem.ts';
import { factMap } from '../../reuse/fact-map.ts';
import { isSameList } from '../../same-list.ts';
import type { Block } from '../../syntax/node.ts';

/** By block, so that a problem concerns only what stands on its block. */
const byBlock = factMap<Analysis, Block, readonly Problem[]>(
  'analysis',
  ({ problems }) => groupBy(problems, ({ at }) => at.block),
  isSameList,
);

/** What the readers noticed in a block. */
export function problemsIn(analysis: Analysis, block: Block): readonly Problem[] {
  return byBlock.get(analysis, block) ?? NONE;
}

/** The blocks in which the readers noticed anything. */
export function problemBlocks(analysis: Analysis): ReadonlyMap<Block, readonly Problem[]> {
  return byBlock.all(analysis);
}

const NONE: readonly Problem[] = [];
