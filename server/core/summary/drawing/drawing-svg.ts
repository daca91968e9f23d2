import { h, type ViewElement } from '../view.ts';
import { drawBlock } from './draw-block.ts';
import { drawEndLabel, drawNet, type RoutedLink } from './draw-link.ts';
import type { DrawnLink } from './drawing.ts';
import { edgeId, nodeId, type Plan } from './elk-graph.ts';
import { LABEL_SIZE, labelOf } from './label.ts';
import type { LaidOut, Point } from './layout.ts';
import { groupIntoNets } from './nets.ts';
import { pointsOf, round } from './route.ts';
import { estimateWidth } from './text-width.ts';

/**
 * Draws a laid-out wiring drawing as SVG, with presentation attributes and classes only: it reads well by itself on
 * white, and a style sheet may give it the colours of a theme. Parts, terminals and links carry their id as `data-id`.
 */
export function drawWiring(plan: Plan, laidOut: LaidOut): ViewElement {
  const { parts } = plan.drawing;
  const places = placesOf(laidOut);
  const routed = routeLinks(plan, laidOut);
  const [width, height] = [Math.ceil(laidOut.width ?? 0), Math.ceil(laidOut.height ?? 0)];
  return h(
    'svg',
    {
      class: 'wiring',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'group',
      'aria-label': `Wiring drawing: ${parts.length} parts, ${routed.length} links`,
      'font-family': 'system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif',
      color: '#1a1a1a',
    },
    h(
      'g',
      { class: 'nets' },
      groupIntoNets(routed).map((net) => drawNet(net, plan.drawing)),
    ),
    h(
      'g',
      { class: 'parts' },
      parts.map((part, number) => {
        const block = plan.blocks[number];
        return block && drawBlock(part, block, places.get(nodeId(number)) ?? ORIGIN);
      }),
    ),
    h('g', { class: 'wire-labels', 'aria-hidden': 'true' }, drawLabels(routed)),
  );
}

const ORIGIN: Point = { x: 0, y: 0 };

/** Where each part was placed, by its id: the top left corner of its block. For keeping a view steady over edits. */
export function placeParts(plan: Plan, laidOut: LaidOut): ReadonlyMap<string, Point> {
  const places = placesOf(laidOut);
  return new Map(plan.drawing.parts.map(({ id }, number) => [id, places.get(nodeId(number)) ?? ORIGIN]));
}

function placesOf({ children }: LaidOut): ReadonlyMap<string, Point> {
  return new Map((children ?? []).map(({ id, x, y }) => [id, { x: x ?? 0, y: y ?? 0 }]));
}

function routeLinks({ links }: Plan, { edges }: LaidOut): readonly RoutedLink[] {
  const byId = new Map((edges ?? []).map((edge) => [edge.id, edge]));
  return links.flatMap((joined) => {
    const edge = byId.get(edgeId(joined.number));
    return edge ? [{ ...joined, points: pointsOf(edge), junctions: edge.junctionPoints ?? [] }] : [];
  });
}

/** True for a straight wire on which two labels would run into each other: one is enough there. */
function isShort(points: readonly Point[], label: string): boolean {
  const [start, end, more] = points;
  if (start === undefined || end === undefined || more !== undefined) return false;
  return Math.abs(end.x - start.x) < 2 * estimateWidth(label, LABEL_SIZE) + 20;
}

/** One label for each end, gathered by the place where it stands. */
function drawLabels(links: readonly RoutedLink[]): readonly ViewElement[] {
  const ends = new Map<string, { readonly end: Point; readonly next: Point; readonly links: DrawnLink[] }>();
  const add = (end: Point | undefined, next: Point | undefined, link: DrawnLink): void => {
    if (end === undefined || next === undefined) return;
    const key = `${round(end.x)} ${round(end.y)}`;
    const known = ends.get(key) ?? { end, next, links: [] };
    known.links.push(link);
    ends.set(key, known);
  };
  for (const { link, points } of links) {
    add(points[0], points[1], link);
    if (!isShort(points, labelOf(link))) add(points.at(-1), points.at(-2), link);
  }
  return [...ends.values()].flatMap(({ end, next, links: here }) => drawEndLabel(here, end, next) ?? []);
}
