import type { MachineAnalysis } from '../../analysis.ts';
import { soundValue } from '../../findings/common/held-back.ts';
import { said, say } from '../../language/say.ts';
import type { AxisEntry } from '../../model/machine.ts';
import { torqueAtSpeed } from '../../motion/torque.ts';
import { formatNumber, toUnit } from '../../units/index.ts';
import { type Derived, showBriefly, unitShown } from '../../values/derived.ts';
import { axisId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { drawMotion } from './motion-drawing.ts';

/** A feed limit in the unit of the picture. */
interface Limit {
  readonly limit: string | undefined;
  readonly value: number;
  readonly shown: string;
}

/** What the picture of one axis is drawn from. Feeds in the axis' unit, torques in N.m. */
export interface Motion {
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

/** For each axis: the torque that there is and that is needed against the feed, with every limit of the feed as a line. */
export function motionItems(analysis: MachineAnalysis): SummaryItem[] {
  return [...analysis.machine.axes.values()].flatMap((axis): SummaryItem[] => {
    const motion = readMotion(analysis, axis);
    if (!motion) return [];
    const says = sayMotion(motion);
    const picture = {
      title: say`Torque of axis ${axis.name}`,
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
    say`At the wanted feed of ${brief(wanted ?? 0)} ${unit} the motor gives ${brief(there)} N.m and ${brief(needed.value)} N.m are needed, with full cutting force while speeding up.`,
    say`Torque is flat up to ${brief(corner.si / speedPerFeed)} ${unit} and then falls.`,
  ];
  const others = limits
    .filter(({ limit }) => limit !== top?.limit)
    .map(({ limit = '', shown }) => `${said(limit)} ${shown}`);
  if (top)
    says.push(
      others.length > 0
        ? say`Top feed ${top.shown}, by ${top.limit}; then ${others.join(', ')}.`
        : say`Top feed ${top.shown}, by ${top.limit}.`,
    );
  return says;
}
