import type { Point } from './layout.ts';

/** For each leg of a line, where it hops over others: places along x. */
export type Hops = ReadonlyMap<number, readonly number[]>;

export const HOP = 3.6;
/** No hop where the line bends, and none where the other ends. */
const CLEAR = 9;

interface Upright {
  readonly x: number;
  readonly top: number;
  readonly bottom: number;
  readonly net: number;
}

/**
 * Where level legs cross upright legs of other nets. The level one hops, as is common in drawings (common practice, no
 * source).
 * @param lines each with the number of its net
 * @returns the hops of each line, in its order
 */
export function findHops(
  lines: readonly { readonly points: readonly Point[]; readonly net: number }[],
): Hops[] {
  const uprights: Upright[] = lines.flatMap(({ points, net }) =>
    legsOf(points).flatMap(([a, b]) =>
      a.x === b.x ? [{ x: a.x, top: Math.min(a.y, b.y), bottom: Math.max(a.y, b.y), net }] : [],
    ),
  );
  uprights.sort((a, b) => a.x - b.x);
  return lines.map(({ points, net }) => {
    const hops = new Map<number, number[]>();
    for (const [leg, [a, b]] of legsOf(points).entries()) {
      if (a.y !== b.y) continue;
      const [from, to] = [Math.min(a.x, b.x) + CLEAR, Math.max(a.x, b.x) - CLEAR];
      const places: number[] = [];
      for (const { x, top, bottom, net: other } of uprights) {
        if (x < from || x > to || other === net) continue;
        if (a.y <= top + CLEAR / 2 || a.y >= bottom - CLEAR / 2) continue;
        if (x - (places.at(-1) ?? Number.NEGATIVE_INFINITY) >= 2 * HOP) places.push(x);
      }
      if (places.length > 0) hops.set(leg, a.x < b.x ? places : places.reverse());
    }
    return hops;
  });
}

function legsOf(points: readonly Point[]): (readonly [Point, Point])[] {
  return points.slice(1).flatMap((point, index) => {
    const before = points[index];
    return before ? [[before, point] as const] : [];
  });
}
