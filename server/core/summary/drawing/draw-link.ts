import { said, say } from '../../language/say.ts';
import { h, type ViewElement } from '../view.ts';
import { drawLabels } from './draw-label.ts';
import type { Drawing, DrawnLink, DrawnPart } from './drawing.ts';
import type { JoinedLink } from './ends.ts';
import { labelOf } from './label.ts';
import type { Point } from './layout.ts';
import type { Plan } from './plan.ts';
import { drawPath, type RoutedLink, round } from './route.ts';
import { KINDS, layersOf, strokeOf } from './stroke.ts';

/**
 * Draws links that share terminals, as one net. Lowest lies a gap in the colour of the ground, so that crossing nets
 * read as passing over each other; then a thin casing, so that a white or yellow wire shows on any ground; then each
 * wire in its own colour; topmost the dots where wires of the net part.
 */
export function drawNet(net: readonly RoutedLink[], plan: Plan): ViewElement {
  return h(
    'g',
    { class: 'net' },
    net.map((link) => underlay(link, 'gap', '#fff', 3.5)),
    net.map((link) =>
      strokeOf(link.link).shades.length > 0 ? underlay(link, 'casing', '#444', 1.2) : undefined,
    ),
    net.map((link) => drawLink(link, plan.drawing)),
    net.flatMap((link) => link.junctions.map((point) => drawJunction(point, link.link))),
    drawLabels(net, plan),
  );
}

function underlay(
  { link, points, hops }: RoutedLink,
  name: string,
  stroke: string,
  more: number,
): ViewElement {
  return h('path', {
    class: `${name} kind-${link.kind}`,
    d: drawPath(points, hops),
    fill: 'none',
    stroke,
    'stroke-width': round(strokeOf(link).width + more),
  });
}

/** What a drawn link tells the page and a screen reader. */
export function linkAttributes(link: DrawnLink, says: string): Readonly<Record<string, string | undefined>> {
  return {
    class: `link kind-${link.kind}`,
    'data-id': link.id,
    'data-from': link.from,
    'data-to': link.to,
    'data-label': link.label,
    role: 'img',
    'aria-label': says,
  };
}

function drawLink({ link, points, hops, from, to }: RoutedLink, drawing: Drawing): ViewElement {
  const path = drawPath(points, hops);
  const stroke = strokeOf(link);
  const says = describeLink(link, drawing, { from, to });
  const line = { d: path, fill: 'none', 'stroke-width': stroke.width, 'stroke-linejoin': 'round' };
  return h(
    'g',
    linkAttributes(link, says),
    h('title', {}, says),
    h('path', { class: 'hit', d: path, fill: 'none', stroke: 'transparent', 'stroke-width': 9 }),
    stroke.shades.length === 0
      ? h('path', { class: 'wire plain', ...line, stroke: 'currentColor', 'stroke-dasharray': stroke.dash })
      : layersOf(stroke).map(({ shade, width, dash }) =>
          h('path', {
            class: 'wire',
            ...line,
            stroke: shade,
            'stroke-width': width,
            'stroke-dasharray': dash,
          }),
        ),
  );
}

/** Says in words what a link joins and by what: "panel.XP to drive-x.PUL-, W14, YE, in cable K3, signal". */
export function describeLink(
  link: DrawnLink,
  { parts }: Drawing,
  ends: Pick<JoinedLink, 'from' | 'to'>,
): string {
  const [from, to] = [parts[ends.from.part], parts[ends.to.part]];
  const terminalOf = (part: DrawnPart | undefined, { terminal }: JoinedLink['from']) =>
    part?.terminals[terminal]?.name;
  const words = [
    say`${from?.name}.${terminalOf(from, ends.from)} to ${to?.name}.${terminalOf(to, ends.to)}`,
    labelOf(link),
    link.cable === undefined ? '' : say`in cable ${link.cable}`,
    said(KINDS.get(link.kind)?.name ?? link.kind),
  ];
  return words.filter((word) => word !== '').join(', ');
}

function drawJunction({ x, y }: Point, link: DrawnLink): ViewElement {
  return h('circle', {
    class: `junction kind-${link.kind}`,
    cx: round(x),
    cy: round(y),
    r: 3.2,
    fill: strokeOf(link).shades[0] ?? 'currentColor',
    stroke: 'currentColor',
    'stroke-width': 0.8,
  });
}
