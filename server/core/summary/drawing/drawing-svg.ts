import { say } from '../../language/say.ts';
import { h, type ViewElement } from '../view.ts';
import { drawBlock } from './draw-block.ts';
import { drawCables } from './draw-cable.ts';
import { drawEarths } from './draw-earth.ts';
import { jointKey } from './draw-label.ts';
import { drawNet } from './draw-link.ts';
import { findHops } from './hops.ts';
import type { LaidOut, Point } from './layout.ts';
import { findLines, placeBlocks } from './lines.ts';
import { groupIntoNets } from './nets.ts';
import type { Plan } from './plan.ts';
import type { RoutedLink } from './route.ts';

/**
 * Draws a laid-out wiring drawing as SVG, with presentation attributes and classes only: it reads well by itself on
 * white, and a style sheet may give it the colours of a theme. Parts, terminals and links carry their id as `data-id`.
 */
export function drawWiring(plan: Plan, laidOut: LaidOut): ViewElement {
  const { parts } = plan.drawing;
  const places = placeBlocks(plan, laidOut);
  const routed = routeLinks(plan, laidOut);
  const joined = new Set(
    [...plan.courses.flatMap(({ start, end }) => [start, end]), ...plan.earths].map(jointKey),
  );
  const [width, height] = [Math.ceil(laidOut.width ?? 0), Math.ceil(laidOut.height ?? 0)];
  return h(
    'svg',
    {
      class: 'wiring',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'group',
      'aria-label': say`Wiring drawing: ${parts.length} parts, ${plan.links.length} links`,
      'font-family': 'system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif',
      color: '#1a1a1a',
    },
    h(
      'g',
      { class: 'nets' },
      groupIntoNets(routed).map((net) => drawNet(net, plan)),
      drawEarths(plan, (part) => places[part] ?? ORIGIN),
      drawCables(routed),
    ),
    h(
      'g',
      { class: 'parts' },
      parts.map((part, number) => {
        const block = plan.blocks[number];
        return (
          block &&
          drawBlock(part, block, places[number] ?? ORIGIN, (terminal, rim) =>
            joined.has(jointKey({ part: number, terminal, rim })),
          )
        );
      }),
    ),
  );
}

const ORIGIN: Point = { x: 0, y: 0 };

function routeLinks(plan: Plan, laidOut: LaidOut): readonly RoutedLink[] {
  const lines = findLines(plan, laidOut);
  const netOf = new Map(
    groupIntoNets(lines).flatMap((net, number) => net.map((line) => [line, number] as const)),
  );
  const hops = findHops(lines.map((line) => ({ points: line.points, net: netOf.get(line) ?? -1 })));
  return lines.map((line, index) => ({ ...line, hops: hops[index] ?? new Map() }));
}
