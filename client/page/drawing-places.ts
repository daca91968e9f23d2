import type { Point } from '../../server/core/summary/drawing/layout.ts';
import type { Plan } from '../../server/core/summary/drawing/plan.ts';

/** Where the parts of a drawing stand, by their ids. */
export type Places = ReadonlyMap<string, Point>;

/** The middle of the part at which most links end, or else of nowhere. */
export function heartOf({ drawing, blocks, links }: Plan, places: Places): Point {
  const counts = drawing.parts.map(
    (_, part) => links.filter(({ from, to }) => from.part === part || to.part === part).length,
  );
  const part = counts.indexOf(Math.max(0, ...counts));
  const { x, y } = places.get(drawing.parts[part]?.id ?? '') ?? { x: 0, y: 0 };
  const { width, height } = blocks[part] ?? { width: 0, height: 0 };
  return { x: x + width / 2, y: y + height / 2 };
}

/** How far the part nearest to the middle of the view has moved from one layout to the next. */
export function shiftOf(middle: Point, before: Places, after: Places): Point {
  let nearest = Number.POSITIVE_INFINITY;
  let shift: Point = { x: 0, y: 0 };
  for (const [id, was] of before) {
    const is = after.get(id);
    const distance = Math.hypot(was.x - middle.x, was.y - middle.y);
    if (is === undefined || distance >= nearest) continue;
    nearest = distance;
    shift = { x: is.x - was.x, y: is.y - was.y };
  }
  return shift;
}
