import { backId, edgeId, LAYER, nodeId, turnId } from './elk-graph.ts';
import type { LaidOut, LaidOutEdge, LayoutEdge, LayoutGraph, LayoutNode, Point } from './layout.ts';
import { placeBlocks } from './lines.ts';
import type { Plan } from './plan.ts';

/** A drawing that stands: what was planned, and where the layout put it. */
export interface Standing {
  readonly plan: Plan;
  readonly laidOut: LaidOut;
}

// All four are documented beside the other options: what has a place keeps its order and, where there is room, its height.
const STEADY: Readonly<Record<string, string>> = {
  'elk.layered.crossingMinimization.strategy': 'INTERACTIVE',
  'elk.layered.crossingMinimization.greedySwitch.type': 'OFF',
  'elk.layered.nodePlacement.strategy': 'INTERACTIVE',
  'elk.layered.considerModelOrder.strategy': 'NONE',
};

/**
 * The graph of a changed drawing, with the places of the one that stands for whatever was in it, so that the layout
 * moves nothing that it need not. What is new takes the free place nearest to what it is wired to. Where hardly
 * anything stands yet, the graph is returned as it is.
 */
export function steady(graph: LayoutGraph, plan: Plan, standing: Standing): LayoutGraph {
  const ys = placeAll(plan, standing);
  if (!ys) return graph;
  const turns = new Map(
    plan.courses.map((course) => [turnId(course.joined.number), yOfTurn(plan, course, ys)] as const),
  );
  const parts = new Map(ys.map((y, part) => [nodeId(part), y]));
  const bends = bendsOf(standing);
  const keyOf = new Map(
    plan.courses.flatMap(({ joined }) => [
      [edgeId(joined.number), keyOfHalf(joined.link, 'there')] as const,
      [backId(joined.number), keyOfHalf(joined.link, 'back')] as const,
    ]),
  );
  return {
    ...graph,
    layoutOptions: { ...graph.layoutOptions, ...STEADY },
    children: graph.children.map(
      (node): LayoutNode => ({ ...node, y: parts.get(node.id) ?? turns.get(node.id) ?? node.y }),
    ),
    edges: graph.edges.map((edge): LayoutEdge => {
      const sections = bends.get(keyOf.get(edge.id) ?? '');
      return sections ? { ...edge, sections } : edge;
    }),
  };
}

type LinkEnds = { readonly from: string; readonly to: string };
/** Links have no names of their own that last, so they are known by their ends. */
const keyOfHalf = ({ from, to }: LinkEnds, half: 'there' | 'back'): string => `${from} ${to} ${half}`;

/** The height of each part: its own, or a free one for what is new. Undefined when most of the parts are new. */
function placeAll(plan: Plan, standing: Standing): readonly number[] | undefined {
  const { drawing, blocks, columns, links } = plan;
  const places = placeBlocks(standing.plan, standing.laidOut);
  const wasAt = new Map(
    standing.plan.drawing.parts.flatMap(({ id }, part) =>
      places[part] ? [[id, { y: places[part].y, column: standing.plan.columns[part] }] as const] : [],
    ),
  );
  const ys: (number | undefined)[] = drawing.parts.map(({ id }, part) => {
    const was = wasAt.get(id);
    return was?.column === columns[part] ? was?.y : undefined;
  });
  if (ys.filter((y) => y !== undefined).length * 2 < ys.length) return undefined;
  for (const [part, y] of ys.entries()) {
    if (y !== undefined) continue;
    const height = blocks[part]?.height ?? 0;
    const near = links.flatMap(({ from, to }) =>
      from.part === part ? (ys[to.part] ?? []) : to.part === part ? (ys[from.part] ?? []) : [],
    );
    const taken = ys.flatMap((other, number) =>
      other !== undefined && columns[number] === columns[part]
        ? [{ top: other, bottom: other + (blocks[number]?.height ?? 0) }]
        : [],
    );
    ys[part] = freePlace(middleOf(near.length > 0 ? near : ys.flatMap((each) => each ?? [])), height, taken);
  }
  return ys.map((y) => y ?? 0);
}

const CLEAR = 24;

/** The height nearest to `wanted` at which a block of this height stands clear of those that are there. */
function freePlace(
  wanted: number,
  height: number,
  taken: readonly { readonly top: number; readonly bottom: number }[],
): number {
  const isFree = (y: number) =>
    taken.every(({ top, bottom }) => y + height + CLEAR <= top || y >= bottom + CLEAR);
  const candidates = [
    wanted,
    ...taken.flatMap(({ top, bottom }) => [top - height - CLEAR, bottom + CLEAR]),
  ].filter(isFree);
  return candidates.reduce(
    (best, y) => (Math.abs(y - wanted) < Math.abs(best - wanted) ? y : best),
    candidates[0] ?? wanted,
  );
}

function middleOf(numbers: readonly number[]): number {
  const sorted = numbers.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

/** A turn stands half way between the two terminals that it joins. */
function yOfTurn({ blocks }: Plan, { start, end }: Plan['courses'][number], ys: readonly number[]): number {
  const yOf = ({ part, terminal }: typeof start) =>
    (ys[part] ?? 0) + (blocks[part]?.rows.find((row) => row.terminal === terminal)?.y ?? 0);
  return (yOf(start) + yOf(end)) / 2;
}

/** The bends of the wires that stand, in the coordinates in which layers are told. */
function bendsOf({ plan, laidOut }: Standing): ReadonlyMap<string, LayoutEdge['sections']> {
  const toLayers = layerScale(plan, laidOut);
  const edges = new Map((laidOut.edges ?? []).map((edge) => [edge.id, edge]));
  const turn = (edge: LaidOutEdge | undefined): LayoutEdge['sections'] =>
    edge?.sections?.map((section, number) => ({
      id: `${edge.id}s${number}`,
      startPoint: toLayers(section.startPoint),
      endPoint: toLayers(section.endPoint),
      bendPoints: (section.bendPoints ?? []).map(toLayers),
    }));
  return new Map(
    plan.courses.flatMap(({ joined }) => [
      [keyOfHalf(joined.link, 'there'), turn(edges.get(edgeId(joined.number)))] as const,
      [keyOfHalf(joined.link, 'back'), turn(edges.get(backId(joined.number)))] as const,
    ]),
  );
}

/** From places in the drawing to places among the layers: the middles of columns are known, the rest lies between. */
function layerScale({ columns }: Plan, { children }: LaidOut): (point: Point) => Point {
  const knots = new Map<number, { from: number; to: number }>();
  const byId = new Map((children ?? []).map((node) => [node.id, node]));
  columns.forEach((column, part) => {
    const { x = 0, width = 0 } = byId.get(nodeId(part)) ?? {};
    const middle = { from: x + width / 2, to: column * LAYER + width / 2 };
    if (!knots.has(column)) knots.set(column, middle);
  });
  const sorted = [...knots.values()].sort((a, b) => a.from - b.from);
  return ({ x, y }) => {
    const after = sorted.findIndex(({ from }) => from >= x);
    const [a, b] = [sorted[after - 1], sorted[after]];
    if (!b) return { x: (sorted.at(-1)?.to ?? 0) + x, y };
    if (!a) return { x: b.to - (b.from - x), y };
    return { x: a.to + ((x - a.from) / (b.from - a.from)) * (b.to - a.to), y };
  };
}
