import { h, type ViewElement } from '../view.ts';
import { rowOf, SIZE } from './block.ts';
import { jointKey } from './draw-label.ts';
import { describeLink, linkAttributes } from './draw-link.ts';
import type { JoinedLink } from './ends.ts';
import { earthLength, LABEL_SIZE, labelOf } from './label.ts';
import type { Point } from './layout.ts';
import type { EarthEnd, Plan } from './plan.ts';
import { round } from './route.ts';
import { layersOf, strokeOf } from './stroke.ts';

/**
 * Draws the protective conductors. Where several end at one terminal, the first is named and the others are counted;
 * where other wires end too, those are named.
 */
export function drawEarths(plan: Plan, placeOf: (part: number) => Point): readonly ViewElement[] {
  const counts = new Map<string, number>();
  for (const end of plan.earths) counts.set(jointKey(end), (counts.get(jointKey(end)) ?? 0) + 1);
  const named = new Set(plan.courses.flatMap(({ start, end }) => [jointKey(start), jointKey(end)]));
  const nameAt = (end: EarthEnd): string => {
    const key = jointKey(end);
    if (named.has(key) || plan.blocks[end.part]?.isFolded) return '';
    named.add(key);
    const others = (counts.get(key) ?? 1) - 1;
    return others > 0 ? `${labelOf(end.joined.link)} +${others}` : labelOf(end.joined.link);
  };
  const byLink = new Map<JoinedLink, EarthEnd[]>();
  for (const end of plan.earths) byLink.set(end.joined, [...(byLink.get(end.joined) ?? []), end]);
  return [...byLink].map(([joined, ends]) =>
    drawEarth(
      joined,
      plan,
      ends.map((end) => drawEnd(end, plan, placeOf(end.part), nameAt(end))),
    ),
  );
}

/**
 * Draws a protective conductor by its two ends: a piece of the wire with its label, and the symbol for earth (IEC 60617
 * in general terms). No line runs between them, since earth goes everywhere.
 */
function drawEarth(
  joined: JoinedLink,
  { drawing }: Plan,
  ends: readonly (ViewElement | undefined)[],
): ViewElement {
  const says = describeLink(joined.link, drawing, joined);
  return h('g', { class: 'net' }, h('g', linkAttributes(joined.link, says), h('title', {}, says), ...ends));
}

function drawEnd(end: EarthEnd, { blocks }: Plan, at: Point, name: string): ViewElement | undefined {
  const { link } = end.joined;
  const block = blocks[end.part];
  if (!block) return undefined;
  const out = end.rim === 'right' ? 1 : -1;
  const x = at.x + (end.rim === 'right' ? block.width : 0);
  const y = at.y + (rowOf(block, end.terminal)?.y ?? SIZE.head / 2);
  const tip = x + out * (earthLength(link) - 10);
  const stroke = strokeOf(link);
  const wire = { d: `M${round(x)} ${round(y)}H${round(tip)}`, fill: 'none' };
  return h(
    'g',
    {},
    h('path', { class: 'hit', ...wire, stroke: 'transparent', 'stroke-width': 12 }),
    stroke.shades.length === 0
      ? h('path', {
          class: 'wire plain',
          ...wire,
          stroke: 'currentColor',
          'stroke-width': stroke.width,
          'stroke-dasharray': stroke.dash,
        })
      : [
          h('path', { class: 'casing', ...wire, stroke: '#444', 'stroke-width': round(stroke.width + 1.2) }),
          ...layersOf(stroke).map(({ shade, width, dash }) =>
            h('path', {
              class: 'wire',
              ...wire,
              stroke: shade,
              'stroke-width': width,
              'stroke-dasharray': dash,
            }),
          ),
        ],
    h('path', {
      class: 'earth-sign',
      d: [6, 4, 2]
        .map((half, bar) => `M${round(tip + out * bar * 3)} ${round(y - half)}v${half * 2}`)
        .join(''),
      stroke: 'currentColor',
      'stroke-width': 1.4,
      fill: 'none',
    }),
    h(
      'text',
      {
        class: 'wire-label kind-earth',
        x: round(x + out * 6),
        y: round(y - 3.5),
        'font-size': LABEL_SIZE,
        'text-anchor': out > 0 ? undefined : 'end',
        fill: 'currentColor',
        'fill-opacity': 0.85,
        'aria-hidden': 'true',
      },
      name,
    ),
  );
}
