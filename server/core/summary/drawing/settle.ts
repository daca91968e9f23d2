import { nodeId } from './elk-graph.ts';
import type { LaidOut, LaidOutEdge, Point } from './layout.ts';
import type { Plan } from './plan.ts';
import type { Standing } from './standing.ts';

/** Columns begin at multiples of this, so that a wire more between two of them seldom moves anything. */
const STEP = 24;

/**
 * Spreads the columns of a layout out to their settled places: where they stood before, or else at the next step. Only
 * level pieces of wires grow by this, so nothing can come to meet that was apart.
 */
export function settleColumns(plan: Plan, laidOut: LaidOut, standing?: Standing): LaidOut {
  const before = standing ? leftsOf(standing.plan, standing.laidOut) : new Map<number, number>();
  const shifts: { readonly from: number; readonly by: number }[] = [];
  let by = 0;
  for (const [column, left] of [...leftsOf(plan, laidOut)].sort(([a], [b]) => a - b)) {
    const least = left + by;
    const was = before.get(column);
    by = (was !== undefined && was >= least ? was : Math.ceil(least / STEP) * STEP) - left;
    shifts.push({ from: left, by });
  }
  const shift = (x: number): number => x + (shifts.findLast(({ from }) => x >= from)?.by ?? 0);
  const move = ({ x, y }: Point): Point => ({ x: shift(x), y });
  return {
    ...laidOut,
    width: (laidOut.width ?? 0) + by,
    children: (laidOut.children ?? []).map((node) => ({ ...node, x: shift(node.x ?? 0) })),
    edges: (laidOut.edges ?? []).map((edge) => moveEdge(edge, move)),
  };
}

function moveEdge(edge: LaidOutEdge, move: (point: Point) => Point): LaidOutEdge {
  return {
    ...edge,
    sections: (edge.sections ?? []).map((section) => ({
      ...section,
      startPoint: move(section.startPoint),
      endPoint: move(section.endPoint),
      bendPoints: (section.bendPoints ?? []).map(move),
    })),
    junctionPoints: (edge.junctionPoints ?? []).map(move),
  };
}

/** Where each column begins. */
function leftsOf({ columns }: Plan, { children }: LaidOut): Map<number, number> {
  const xs = new Map((children ?? []).map(({ id, x }) => [id, x ?? 0]));
  const lefts = new Map<number, number>();
  columns.forEach((column, part) => {
    const x = xs.get(nodeId(part)) ?? 0;
    lefts.set(column, Math.min(lefts.get(column) ?? x, x));
  });
  return lefts;
}
