import type { MachineAnalysis } from '../../analysis.ts';
import { soundValue } from '../../findings/common/held-back.ts';
import type { AxisEntry } from '../../model/machine.ts';
import { torqueAtSpeed, USUAL_TORQUE_FACTOR } from '../../motion/torque.ts';
import { formatNumber, toUnit } from '../../units/index.ts';
import { type Derived, showBriefly, unitShown } from '../../values/derived.ts';
import { axisId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import type { ViewElement } from '../view.ts';
import { canvas, curve, line, note, tenth } from './ink.ts';
import { axisBelow, axisLeft, placeFlags, scaleTo, writeFlag } from './scale.ts';

/** A feed limit in the unit of the picture. */
interface Limit {
  readonly limit: string | undefined;
  readonly value: number;
  readonly shown: string;
}

/** What the picture of one axis is drawn from. Feeds in the axis' unit, torques in N.m. */
interface Motion {
  readonly axis: string;
  readonly unit: string;
  readonly standstill: Derived;
  readonly corner: Derived;
  readonly needed: Derived;
  readonly limits: readonly Limit[];
  readonly top: Limit | undefined;
  readonly wanted: number | undefined;
  /** Motor speed in rad/s for a feed of one unit. */
  readonly speedPerFeed: number;
}

const WIDTH = 720;
const HEIGHT = 300;
const [LEFT, RIGHT, BOTTOM] = [56, 700, 262];

/** For each axis: the torque that there is and that is needed against the feed, with every limit of the feed as a line. */
export function motionItems(analysis: MachineAnalysis): SummaryItem[] {
  return [...analysis.machine.axes.values()].flatMap((axis): SummaryItem[] => {
    const motion = readMotion(analysis, axis);
    if (!motion) return [];
    const says = sayMotion(motion);
    const picture = {
      title: `Torque of axis ${axis.name}`,
      titleId: axisId(axis.name),
      svg: drawMotion(motion, says.join(' ')),
      says,
    };
    return [{ id: `motion:${axis.name}`, section: 'motion', kind: 'picture', picture }];
  });
}

function readMotion(analysis: MachineAnalysis, axis: AxisEntry): Motion | undefined {
  const value = (name: string) => soundValue(analysis, `axes.${axis.name}.${name}`);
  const [standstill, corner, needed, speed] = [
    'standstill-torque',
    'motor-corner-speed',
    'torque-needed',
    'motor-speed',
  ].map(value);
  const feed = axis.fields.quantity('feed')?.value.value;
  const top = value('top-feed');
  if (!standstill || !corner || !needed || !speed || feed === undefined || !(feed > 0)) return undefined;
  const unit = top ? unitShown(top) : 'mm/min';
  const inUnit = (limit: Derived): Limit => ({
    limit: limit.limit,
    value: toUnit(limit.si, unit),
    shown: showBriefly(limit),
  });
  const wanted = toUnit(feed, unit);
  const limits = ['pulse-rate', 'motor-speed', 'critical-speed', 'nut-speed'].flatMap(
    (name) => value(`feed-limit.${name}`) ?? [],
  );
  return {
    axis: axis.name,
    unit,
    standstill,
    corner,
    needed,
    limits: limits.map(inUnit),
    top: top && inUnit(top),
    wanted,
    speedPerFeed: speed.si / wanted,
  };
}

/** Limits far beyond all the others would press those together; they are named at the edge. */
function spanOf({ limits, top, wanted = 0 }: Motion): number {
  const near = Math.max(top?.value ?? 0, wanted) * 2.2;
  const shown = limits.map(({ value }) => value).filter((value) => value <= near);
  return Math.max(wanted, ...shown) * 1.12;
}

const brief = (number: number) => formatNumber(number, 3);

function sayMotion({
  unit,
  standstill,
  corner,
  needed,
  limits,
  top,
  wanted,
  speedPerFeed,
}: Motion): string[] {
  const there = torqueAtSpeed(standstill.si, corner.si, (wanted ?? 0) * speedPerFeed);
  const says = [
    `At the wanted feed of ${brief(wanted ?? 0)} ${unit} the motor gives ${brief(there)} N.m and ${brief(needed.value)} N.m are needed, with full cutting force while speeding up.`,
    `Torque is flat up to ${brief(corner.si / speedPerFeed)} ${unit} and then falls.`,
  ];
  const others = limits
    .filter(({ limit }) => limit !== top?.limit)
    .map((limit) => `${limit.limit} ${limit.shown}`);
  if (top)
    says.push(
      `Top feed ${top.shown}, by ${top.limit}${others.length > 0 ? `; then ${others.join(', ')}` : ''}.`,
    );
  return says;
}

function drawMotion(motion: Motion, says: string): ViewElement {
  const { unit, standstill, corner, needed, limits, top, wanted, speedPerFeed } = motion;
  const most = spanOf(motion);
  const flags = limits.map((limit) => ({
    x: scaleTo(most, LEFT, RIGHT)(Math.min(limit.value, most)),
    text: `${limit.limit} ${limit.shown}${limit.limit === top?.limit ? ' = top feed' : ''}${limit.value > most ? ' →' : ''}`,
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
    note('given', 'torque available', x(most) - 4, y(available(most)) - 8, {
      'text-anchor': 'end',
      'font-weight': 600,
    }),
    line('asked', x(0), y(needed.value), x(most), y(needed.value), { 'stroke-width': 2.2 }),
    note('asked', `needed ${brief(needed.value)} N.m`, x(0) + 8, y(needed.value) - 5, { 'font-weight': 600 }),
    line('asked', x(0), y(reserve), x(most), y(reserve), { 'stroke-width': 1.2, 'stroke-dasharray': '6 4' }),
    note('asked', `twice that: the usual reserve`, x(0) + 8, y(reserve) - 5),
    wanted === undefined
      ? undefined
      : drawWanted(x(wanted), y(there), `wanted ${brief(wanted)} ${unit}: ${brief(there)} N.m`),
  );
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
