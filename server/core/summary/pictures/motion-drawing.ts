import { said, say } from '../../language/say.ts';
import { torqueAtSpeed, USUAL_TORQUE_FACTOR } from '../../motion/torque.ts';
import { formatNumber } from '../../units/index.ts';
import type { ViewElement } from '../view.ts';
import { canvas, curve, line, note, tenth } from './ink.ts';
import type { Motion } from './motion.ts';
import { axisBelow, axisLeft, placeFlags, scaleTo, writeFlag } from './scale.ts';

const WIDTH = 720;
const HEIGHT = 300;
const [LEFT, RIGHT, BOTTOM] = [56, 700, 262];
/** How far two lines are apart at least for a text between them. */
const ROOM = 16;

/** Limits far beyond all the others would press those together; they are named at the edge. */
function spanOf({ limits, top, wanted = 0 }: Motion): number {
  const near = Math.max(top?.value ?? 0, wanted) * 2.2;
  const shown = limits.map(({ value }) => value).filter((value) => value <= near);
  return Math.max(wanted, ...shown) * 1.12;
}

const brief = (number: number) => formatNumber(number, 3);

/** Draws torque against feed: what there is, what is needed, and every limit of the feed. */
export function drawMotion(motion: Motion, says: string): ViewElement {
  const { unit, standstill, corner, needed, limits, top, wanted, speedPerFeed } = motion;
  const most = spanOf(motion);
  const flags = limits.map((limit) => ({
    x: scaleTo(most, LEFT, RIGHT)(Math.min(limit.value, most)),
    text: `${said(limit.limit ?? '')} ${limit.shown}${limit.limit === top?.limit ? say` = top feed` : ''}${limit.value > most ? ' →' : ''}`,
    isTop: limit.limit === top?.limit,
    isBeyond: limit.value > most,
  }));
  const placed = placeFlags(flags, RIGHT);
  const rows = Math.max(0, ...placed.map(({ row }) => row + 1));
  const ceiling = 20 + rows * 14;
  const torque = Math.max(standstill.value, needed.value * USUAL_TORQUE_FACTOR) * 1.12;
  const x = scaleTo(most, LEFT, RIGHT);
  const y = scaleTo(torque, BOTTOM, ceiling);
  const available = (feed: number) => torqueAtSpeed(standstill.si, corner.si, feed * speedPerFeed);
  const bend = corner.si / speedPerFeed;
  const feeds = [
    0,
    ...Array.from({ length: 60 }, (_, n) => bend + ((most - bend) * n) / 59).filter(
      (feed) => feed > 0 && feed <= most,
    ),
    ...(bend > most ? [most] : []),
  ];
  const reserve = needed.value * USUAL_TORQUE_FACTOR;
  const there = available(wanted ?? 0);
  return canvas(
    'motion',
    WIDTH,
    HEIGHT,
    says,
    axisLeft(y, torque, LEFT, 'N.m', RIGHT - LEFT),
    axisBelow(x, most, BOTTOM, unit, BOTTOM - ceiling),
    placed.map((flag) =>
      flag.isBeyond
        ? undefined
        : line(flag.isTop ? 'asked' : 'rule', flag.x, 14 + flag.row * 14, flag.x, BOTTOM, {
            'stroke-width': flag.isTop ? 2 : 1.2,
            'stroke-dasharray': flag.isTop ? '7 3' : '3 3',
          }),
    ),
    placed.map((flag) => writeFlag(flag, 20 + flag.row * 14, flag.isTop ? 'asked' : 'text')),
    curve(
      'given',
      feeds.map((feed) => [x(feed), y(available(feed))] as const),
      { 'stroke-width': 2.6 },
    ),
    note('given', say`torque available`, x(most) - 4, y(available(most)) - 8, {
      'text-anchor': 'end',
      'font-weight': 600,
    }),
    line('asked', x(0), y(needed.value), x(most), y(needed.value), { 'stroke-width': 2.2 }),
    line('asked', x(0), y(reserve), x(most), y(reserve), { 'stroke-width': 1.2, 'stroke-dasharray': '6 4' }),
    ...nameNeeded(brief(needed.value), x(0) + 8, y(needed.value), y(reserve)),
    wanted === undefined
      ? undefined
      : drawWanted(x(wanted), y(there), say`wanted ${brief(wanted)} ${unit}: ${brief(there)} N.m`),
  );
}

/** What the two lines of the torque needed are: a text on each, or one above both where a text has no room between. */
function nameNeeded(needed: string, x: number, y: number, above: number): ViewElement[] {
  if (y - above < ROOM) {
    const both = say`needed ${needed} N.m, and twice that: the usual reserve`;
    return [note('asked', both, x, above - 5)];
  }
  return [
    note('asked', say`needed ${needed} N.m`, x, y - 5, { 'font-weight': 600 }),
    note('asked', say`twice that: the usual reserve`, x, above - 5),
  ];
}

/** The feed that is wanted: a line down from the curve, with a mark on it. */
function drawWanted(x: number, y: number, text: string): ViewElement {
  return {
    tag: 'g',
    attributes: {},
    children: [
      line('wanted', x, y, x, BOTTOM, { 'stroke-width': 2 }),
      {
        tag: 'path',
        attributes: {
          class: 'fill-wanted',
          d: `M${tenth(x)} ${tenth(y - 6)}l6 6l-6 6l-6 -6Z`,
          fill: '#5a3f94',
        },
        children: [],
      },
      note('wanted', text, x + 10, y + 18, { 'font-weight': 600 }),
    ],
  };
}
