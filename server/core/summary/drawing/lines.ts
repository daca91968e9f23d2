import { rowOf, SIZE } from './block.ts';
import type { Course, Joint } from './courses.ts';
import { backId, edgeId, nodeId } from './elk-graph.ts';
import type { LaidOut, LaidOutEdge, Point } from './layout.ts';
import type { Plan } from './plan.ts';
import { pointsOf, type RoutedLink, straighten } from './route.ts';

/** A link with its way, before it is known where it hops over others. */
export type Line = Omit<RoutedLink, 'hops'>;

/** Where the block of each part was placed, by its top left corner, in the order of the plan. */
export function placeBlocks({ blocks, rooms }: Plan, { children }: LaidOut): readonly Point[] {
  const byId = new Map((children ?? []).map((node) => [node.id, node]));
  return blocks.map((_, part) => {
    const { x = 0, y = 0 } = byId.get(nodeId(part)) ?? {};
    return { x: x + (rooms[part]?.left ?? 0), y };
  });
}

/** Where each part was placed, by its id: the top left corner of its block. For keeping a view steady over edits. */
export function placeParts(plan: Plan, laidOut: LaidOut): ReadonlyMap<string, Point> {
  const places = placeBlocks(plan, laidOut);
  return new Map(plan.drawing.parts.map(({ id }, part) => [id, places[part] ?? { x: 0, y: 0 }]));
}

/** The way of each routed link, from terminal to terminal. A link that the layout could not route is left out. */
export function findLines(plan: Plan, laidOut: LaidOut): readonly Line[] {
  const places = placeBlocks(plan, laidOut);
  const edges = new Map((laidOut.edges ?? []).map((edge) => [edge.id, edge]));
  return plan.courses.flatMap((course) => {
    const { joined, start, end } = course;
    const { number } = joined;
    const halves = [edges.get(edgeId(number)), edges.get(backId(number))].filter(
      (edge) => edge !== undefined,
    );
    if (halves.length === 0) return [];
    const points = [
      rimPoint(plan, places, start),
      ...joinHalves(course, halves),
      rimPoint(plan, places, end),
    ];
    const junctions = halves.flatMap(({ junctionPoints }) => junctionPoints ?? []);
    return [{ ...joined, start, end, points: straighten(points), junctions }];
  });
}

/** The points from start to end: of one edge, or of the two that meet at the turn. */
function joinHalves({ turn }: Course, halves: readonly LaidOutEdge[]): readonly Point[] {
  const [there = [], back = []] = halves.map(pointsOf);
  if (turn === undefined) return there;
  return turn === 'right' ? [...there, ...back.toReversed()] : [...there.toReversed(), ...back];
}

function rimPoint({ blocks }: Plan, places: readonly Point[], { part, terminal, rim }: Joint): Point {
  const { x, y } = places[part] ?? { x: 0, y: 0 };
  const block = blocks[part];
  const row = (block && rowOf(block, terminal)?.y) ?? SIZE.head / 2;
  return { x: x + (rim === 'right' ? (block?.width ?? 0) : 0), y: y + row };
}
