import { h, type ViewElement } from '../view.ts';
import { rowOf, SIZE } from './block.ts';
import { describeLink, linkAttributes } from './draw-link.ts';
import type { Plan } from './elk-graph.ts';
import { isRouted, rimAt } from './elk-graph.ts';
import type { End, JoinedLink } from './ends.ts';
import { earthLength, LABEL_SIZE, labelOf } from './label.ts';
import type { Point } from './layout.ts';
import { round } from './route.ts';
import { layersOf, strokeOf } from './stroke.ts';

/** Draws the protective conductors. Where several end at one terminal, the first is named and the others are counted. */
export function drawEarths(plan: Plan, placeOf: (part: number) => Point): readonly ViewElement[] {
  const earths = plan.links.filter((joined) => !isRouted(joined));
  const counts = new Map<string, number>();
  const keyOf = ({ part, terminal }: End) => `${part} ${terminal}`;
  for (const { from, to } of earths)
    for (const end of [from, to]) counts.set(keyOf(end), (counts.get(keyOf(end)) ?? 0) + 1);
  const named = new Set<string>();
  const nameAt = (joined: JoinedLink, end: End): string => {
    const [key, own] = [keyOf(end), labelOf(joined.link)];
    if (named.has(key)) return '';
    named.add(key);
    const others = (counts.get(key) ?? 1) - 1;
    return others > 0 ? `${own} +${others}` : own;
  };
  return earths.map((joined) => drawEarth(joined, plan, placeOf, nameAt));
}

/**
 * Draws a protective conductor by its two ends: a piece of the wire with its label, and the symbol for earth (IEC 60617
 * in general terms). No line runs between them, since earth goes everywhere.
 */
function drawEarth(
  joined: JoinedLink,
  plan: Plan,
  placeOf: (part: number) => Point,
  nameAt: (joined: JoinedLink, end: End) => string,
): ViewElement {
  const { link, from, to } = joined;
  const says = describeLink(link, plan.drawing, joined);
  return h(
    'g',
    { class: 'net' },
    h(
      'g',
      linkAttributes(link, says),
      h('title', {}, says),
      drawEnd(joined, from, plan, placeOf(from.part), nameAt(joined, from)),
      drawEnd(joined, to, plan, placeOf(to.part), nameAt(joined, to)),
    ),
  );
}

function drawEnd(
  { link }: JoinedLink,
  end: End,
  { blocks }: Plan,
  at: Point,
  name: string,
): ViewElement | undefined {
  const block = blocks[end.part];
  if (!block) return undefined;
  const rim = rimAt(end, 'right', blocks);
  const out = rim === 'right' ? 1 : -1;
  const x = at.x + (rim === 'right' ? block.width : 0);
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
