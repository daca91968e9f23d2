import { h, type ViewElement } from '../view.ts';
import type { Joint } from './courses.ts';
import type { DrawnLink } from './drawing.ts';
import { LABEL_SIZE, labelOf } from './label.ts';
import type { Point } from './layout.ts';
import type { Plan } from './plan.ts';
import { type RoutedLink, round } from './route.ts';
import { estimateWidth } from './text-width.ts';

/** A terminal at which wires end: where it is, which way they leave it, and which they are. */
interface Ending {
  readonly end: Point;
  readonly out: 1 | -1;
  readonly links: DrawnLink[];
}

/**
 * Labels the wires of a net at both ends, as the wires themselves are. One label is enough on a short straight wire, and
 * none stands at a folded part, where many wires join at one point.
 */
export function drawLabels(net: readonly RoutedLink[], { blocks, earths }: Plan): readonly ViewElement[] {
  const endings = new Map<string, Ending>();
  const add = (end: Point | undefined, joint: Joint, link: DrawnLink): void => {
    if (end === undefined || blocks[joint.part]?.isFolded) return;
    const key = jointKey(joint);
    const ending = endings.get(key) ?? { end, out: joint.rim === 'right' ? 1 : -1, links: [] };
    ending.links.push(link);
    endings.set(key, ending);
  };
  for (const { link, points, start, end } of net) {
    add(points[0], start, link);
    if (!isShort(points, labelOf(link))) add(points.at(-1), end, link);
  }
  for (const { joined, ...joint } of earths) endings.get(jointKey(joint))?.links.push(joined.link);
  return [...endings.values()].flatMap((ending) => drawLabel(ending) ?? []);
}

/** What tells one end of wires from all others. */
export const jointKey = ({ part, terminal, rim }: Joint): string => `${part} ${terminal} ${rim}`;

/** True for a straight wire on which two labels would run into each other. */
function isShort(points: readonly Point[], label: string): boolean {
  const [start, end, more] = points;
  if (start === undefined || end === undefined || more !== undefined) return false;
  return Math.abs(end.x - start.x) < 2 * estimateWidth(label, LABEL_SIZE) + 20;
}

/**
 * The label above a wire where it leaves its terminal. Where several wires leave one terminal, the first is named there
 * and the others counted; they are named at their far ends.
 */
function drawLabel({ links, end, out }: Ending): ViewElement | undefined {
  const named = [...new Set(links.map(labelOf).filter((label) => label !== ''))];
  if (named.length === 0) return undefined;
  const kinds = new Set(links.map(({ kind }) => kind));
  return h(
    'text',
    {
      class: kinds.size === 1 ? `wire-label kind-${[...kinds][0]}` : 'wire-label',
      x: round(end.x + out * 6),
      y: round(end.y - 3.5),
      'font-size': LABEL_SIZE,
      'text-anchor': out > 0 ? undefined : 'end',
      fill: 'currentColor',
      'fill-opacity': 0.85,
      'aria-hidden': 'true',
    },
    named.length === 1 ? named[0] : `${named[0]} +${named.length - 1}`,
  );
}
