import { type Block, foldBlock, measureBlock } from './block.ts';
import { type Course, findCourses, isRouted, type Joint, rimAt } from './courses.ts';
import type { Drawing } from './drawing.ts';
import { type JoinedLink, joinLinks } from './ends.ts';
import { chooseColumns } from './ranks.ts';
import { measureRooms, type Room } from './rooms.ts';
import { chooseSides, type Side } from './sides.ts';

/** A drawing with everything decided that does not need the layout. Columns, blocks and rooms are in the order of its parts. */
export interface Plan {
  readonly drawing: Drawing;
  readonly links: readonly JoinedLink[];
  readonly columns: readonly number[];
  readonly blocks: readonly Block[];
  /** How each link runs that is drawn as a line. */
  readonly courses: readonly Course[];
  /** The ends of the others. */
  readonly earths: readonly EarthEnd[];
  readonly rooms: readonly Room[];
}

/** One end of an earth link: it sticks out of its part and ends in the symbol. */
export interface EarthEnd extends Joint {
  readonly joined: JoinedLink;
}

/**
 * Decides columns, sides and the size of every block. The same drawing always gives the same plan.
 * @param folded the ids of the parts that are shown without their terminals
 * @param standing the plan of the drawing that stands: what was wired there keeps its column and its sides
 */
export function planDrawing(
  drawing: Drawing,
  folded: ReadonlySet<string> = new Set(),
  standing?: Plan,
): Plan {
  const links = joinLinks(drawing);
  const kept = standing && keepWired(standing);
  const columns = chooseColumns(drawing, links, kept?.columns);
  const sides = chooseSides(drawing, links, columns, kept?.sides);
  const blocks = drawing.parts.map((part, number) =>
    folded.has(part.id) ? foldBlock(part) : measureBlock(part, sides[number] ?? []),
  );
  const courses = findCourses(links, columns, blocks);
  const earths = links
    .filter((joined) => !isRouted(joined))
    .flatMap((joined) =>
      [joined.from, joined.to].map((end) => ({ joined, ...end, rim: rimAt(end, 'right', blocks) })),
    );
  const rooms = measureRooms(columns, courses, earths);
  return { drawing, links, columns, blocks, courses, earths, rooms };
}

/** The columns of the parts that are wired at all, and the sides of the terminals in groups that are. */
function keepWired({ drawing, links, columns, blocks }: Plan): {
  readonly columns: ReadonlyMap<string, number>;
  readonly sides: ReadonlyMap<string, Side>;
} {
  const wired = new Set(links.flatMap(({ from, to }) => [from.part, to.part]));
  const kept = { columns: new Map<string, number>(), sides: new Map<string, Side>() };
  for (const part of wired) {
    const { id, terminals } = drawing.parts[part] ?? { id: '', terminals: [] };
    kept.columns.set(id, columns[part] ?? 0);
    const groups = new Set(terminals.filter((each) => each.wired).map(({ group }) => group));
    for (const { terminal, side } of blocks[part]?.rows ?? []) {
      const drawn = terminals[terminal];
      if (drawn && groups.has(drawn.group)) kept.sides.set(drawn.id, side);
    }
  }
  return kept;
}
