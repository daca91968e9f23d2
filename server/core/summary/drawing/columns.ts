import type { Drawing } from './drawing.ts';
import type { JoinedLink } from './ends.ts';

/**
 * The column in which a part is drawn, by its class: current and signals run from left to right, from the mains over
 * supplies and switches and the controller to the drives and what they move.
 */
const COLUMNS: ReadonlyMap<string, number> = new Map([
  ['mains', 0],
  ['breaker', 1],
  ['fuse', 1],
  ['supply', 2],
  ['emergency-stop', 2],
  ['switch', 2],
  ['sensor', 2],
  ['probe', 2],
  ['handwheel', 2],
  ['controller', 3],
  ['relay', 4],
  ['drive', 4],
  ['converter', 4],
  ['motor', 5],
  ['spindle', 5],
  ['load', 5],
]);
const MIDDLE = 3;

/** The column of each part. One without a column of its own, such as a terminal strip, stands amid what it joins. */
export function placeInColumns(drawing: Drawing, links: readonly JoinedLink[]): readonly number[] {
  const own = drawing.parts.map(({ partClass }) => COLUMNS.get(partClass));
  return own.map((column, part) => column ?? averageAround(part, own, links));
}

function averageAround(
  part: number,
  own: readonly (number | undefined)[],
  links: readonly JoinedLink[],
): number {
  const others = links.flatMap(({ from, to }) => {
    if (from.part === part) return own[to.part] ?? [];
    return to.part === part ? (own[from.part] ?? []) : [];
  });
  if (others.length === 0) return MIDDLE;
  return Math.round(others.reduce((sum, column) => sum + column, 0) / others.length);
}
