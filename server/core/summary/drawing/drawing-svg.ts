import { h, type ViewElement } from '../view.ts';
import { drawBlock } from './draw-block.ts';
import { drawCables } from './draw-cable.ts';
import { drawEarths } from './draw-earth.ts';
import { drawNet } from './draw-link.ts';
import { edgeId, isRouted, nodeId, type Plan, portId, rimAt, toLayoutGraph } from './elk-graph.ts';
import { findHops } from './hops.ts';
import type { LaidOut, Point } from './layout.ts';
import { groupIntoNets } from './nets.ts';
import { pointsOf, type RoutedLink } from './route.ts';

/**
 * Draws a laid-out wiring drawing as SVG, with presentation attributes and classes only: it reads well by itself on
 * white, and a style sheet may give it the colours of a theme. Parts, terminals and links carry their id as `data-id`.
 */
export function drawWiring(plan: Plan, laidOut: LaidOut): ViewElement {
  const { parts } = plan.drawing;
  const places = placesOf(laidOut);
  const routed = routeLinks(plan, laidOut);
  const joined = new Set([
    ...toLayoutGraph(plan).edges.flatMap(({ sources, targets }) => [...sources, ...targets]),
    ...plan.links
      .filter((link) => !isRouted(link))
      .flatMap(({ from, to }) => [from, to].map((end) => portId(end, rimAt(end, 'right', plan.blocks)))),
  ]);
  const [width, height] = [Math.ceil(laidOut.width ?? 0), Math.ceil(laidOut.height ?? 0)];
  return h(
    'svg',
    {
      class: 'wiring',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'group',
      'aria-label': `Wiring drawing: ${parts.length} parts, ${plan.links.length} links`,
      'font-family': 'system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif',
      color: '#1a1a1a',
    },
    h(
      'g',
      { class: 'nets' },
      groupIntoNets(routed).map((net) => drawNet(net, plan.drawing)),
      drawEarths(plan, (part) => places.get(nodeId(part)) ?? ORIGIN),
      drawCables(routed),
    ),
    h(
      'g',
      { class: 'parts' },
      parts.map((part, number) => {
        const block = plan.blocks[number];
        return (
          block &&
          drawBlock(part, block, places.get(nodeId(number)) ?? ORIGIN, (terminal, rim) =>
            joined.has(portId({ part: number, terminal }, rim)),
          )
        );
      }),
    ),
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
  const lines = links.flatMap((joined) => {
    const edge = byId.get(edgeId(joined.number));
    return edge ? [{ ...joined, points: pointsOf(edge), junctions: edge.junctionPoints ?? [] }] : [];
  });
  const netOf = new Map(
    groupIntoNets(lines).flatMap((net, number) => net.map((line) => [line, number] as const)),
  );
  const hops = findHops(lines.map((line) => ({ points: line.points, net: netOf.get(line) ?? -1 })));
  return lines.map((line, index) => ({ ...line, hops: hops[index] ?? new Map() }));
}
