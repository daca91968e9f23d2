import { type Block, rowOf } from './block.ts';
import type { End, JoinedLink } from './ends.ts';
import { stepOf } from './ranks.ts';

/** The rim of a block at which a wire joins. */
export type Rim = 'left' | 'right';

/** One end of a link, with the rim of its block at which it joins. */
export interface Joint extends End {
  readonly rim: Rim;
}

/**
 * How a link runs: from joint to joint, always to the right; or, between parts of one column, out at one side of both,
 * with a turn beside them.
 */
export interface Course {
  readonly joined: JoinedLink;
  readonly start: Joint;
  readonly end: Joint;
  readonly turn?: Rim;
}

/** True for a link that is drawn as a line from end to end. Earth goes everywhere, so only its ends are drawn. */
export const isRouted = ({ link }: JoinedLink): boolean => link.kind !== 'earth';

/** The course of each routed link. */
export function findCourses(
  links: readonly JoinedLink[],
  columns: readonly number[],
  blocks: readonly Block[],
): readonly Course[] {
  return links.filter(isRouted).map((joined) => {
    const { from, to } = joined;
    const step = stepOf(joined, columns);
    const [start, end] = step < 0 ? [to, from] : [from, to];
    const turn = step === 0 && from.part !== to.part ? turnOf(start, end, blocks) : undefined;
    return {
      joined,
      start: { ...start, rim: rimAt(start, turn ?? 'right', blocks) },
      end: { ...end, rim: rimAt(end, turn ?? 'left', blocks) },
      ...(turn !== undefined && { turn }),
    };
  });
}

/** The side at which two ends meet; when their terminals stand on opposite rims, one wire goes round its part. */
function turnOf(a: End, b: End, blocks: readonly Block[]): Rim {
  const isAt = (rim: Rim) => rimAt(a, rim, blocks) === rim && rimAt(b, rim, blocks) === rim;
  return isAt('right') && !isAt('left') ? 'right' : 'left';
}

/** The rim at which a terminal's wires join; on a bar and on a folded part both do, and the preferred one is taken. */
export function rimAt(end: End, preferred: Rim, blocks: readonly Block[]): Rim {
  const block = blocks[end.part];
  const side = (block && rowOf(block, end.terminal)?.side) ?? preferred;
  return side === 'both' ? preferred : side;
}
