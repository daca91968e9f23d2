import type { MachineAnalysis } from '../../analysis.ts';
import { soundValue } from '../../findings/common/held-back.ts';
import { later, said, say } from '../../language/say.ts';
import type { AxisEntry } from '../../model/machine.ts';
import { CRITICAL_SPEED_SHARE } from '../../motion/feed.ts';
import { formatNumber } from '../../units/index.ts';
import { type Derived, showBriefly } from '../../values/derived.ts';
import { axisId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { h, type ViewElement } from '../view.ts';
import { area, canvas, curve, hatch, line, note, SMALL, write } from './ink.ts';
import { axisBelow, placeFlags, scaleTo, writeFlag } from './scale.ts';

const WIDTH = 720;
const [LEFT, RIGHT] = [24, 700];

interface Screw {
  readonly axis: string;
  readonly critical: Derived;
  /** How fast the screw turns at the wanted feed, in rpm. */
  readonly turns: number | undefined;
  readonly ends: string;
  readonly length: string;
  readonly root: string;
}

/** For each axis with a screw: how the screw whips, and how near to that it turns. */
export function screwItems(analysis: MachineAnalysis): SummaryItem[] {
  return [...analysis.machine.axes.values()].flatMap((axis): SummaryItem[] => {
    const screw = readScrew(analysis, axis);
    if (!screw) return [];
    const says = sayScrew(screw);
    const picture = {
      title: say`Screw of axis ${axis.name}`,
      titleId: axisId(axis.name),
      svg: drawScrew(screw, says.join(' ')),
      says,
    };
    return [{ id: `screw:${axis.name}`, section: 'motion', kind: 'picture', picture }];
  });
}

function readScrew(analysis: MachineAnalysis, { name, fields }: AxisEntry): Screw | undefined {
  const value = (address: string) => soundValue(analysis, `axes.${name}.${address}`);
  const critical = value('screw-critical-speed');
  const screw = fields.child('screw');
  const [ends, length, root] = ['ends', 'length', 'root'].map((key) => screw.text(key)?.value);
  if (!critical || ends === undefined || length === undefined || root === undefined) return undefined;
  const motor = value('motor-speed');
  const gearing = fields.ratio('gearing')?.value;
  const ratio = gearing ? gearing.left / gearing.right : 1;
  return { axis: name, critical, ends, length, root, turns: motor && motor.value / ratio };
}

function sayScrew({ critical, turns, ends, length, root }: Screw): string[] {
  const allowed = critical.value * CRITICAL_SPEED_SHARE;
  const says = [
    say`A screw of ${root} root and ${length}, held ${sayEnds(ends)}, whips at ${showBriefly(critical)}; ${CRITICAL_SPEED_SHARE * 100} % of that may be used, ${formatNumber(allowed, 4)} rpm.`,
  ];
  if (turns !== undefined)
    says.push(
      say`At the wanted feed it turns at ${formatNumber(turns, 4)} rpm, ${formatNumber((turns / critical.value) * 100, 3)} % of the critical speed${turns > allowed ? say`: too fast` : ''}.`,
    );
  return says;
}

/** How an end may be held, as the definition has it before and behind its hyphen. */
const HOLDS = [later`fixed`, later`supported`, later`free`];

const sayEnds = (ends: string): string =>
  ends
    .split('-')
    .map((how) => (HOLDS.includes(how) ? said(how) : how))
    .join('-');

function drawScrew({ critical, turns, ends, length, root }: Screw, says: string): ViewElement {
  const most = Math.max(critical.value, turns ?? 0) * 1.1;
  const x = scaleTo(most, LEFT, RIGHT);
  const allowed = critical.value * CRITICAL_SPEED_SHARE;
  const placed = placeFlags(
    [
      { x: x(allowed), text: say`may be used ${formatNumber(allowed, 4)} rpm`, ink: 'given' as const },
      { x: x(critical.value), text: say`whips ${showBriefly(critical)}`, ink: 'asked' as const },
      ...(turns === undefined
        ? []
        : [{ x: x(turns), text: say`wanted feed ${formatNumber(turns, 4)} rpm`, ink: 'wanted' as const }]),
    ],
    RIGHT,
  );
  const bar = 130;
  return canvas(
    'screw',
    WIDTH,
    188,
    says,
    drawShape(ends, say`${root} root, ${length} between the ends, ${sayEnds(ends)}`),
    area('given', x(0), bar, x(allowed) - x(0), 12, { 'fill-opacity': 0.28 }),
    hatch('asked', x(allowed), bar, x(most) - x(allowed), 12),
    placed.map((flag) => line(flag.ink, flag.x, 92 + flag.row * 13, flag.x, bar + 12, { 'stroke-width': 2 })),
    placed.map((flag) => writeFlag(flag, 100 + flag.row * 13, flag.ink)),
    axisBelow(x, most, bar + 18, 'rpm'),
  );
}

/** The screw between its ends, and the first shape in which it swings. */
function drawShape(ends: string, says: string): ViewElement {
  const [from, to, y] = [60, 660, 42];
  const [left, right] = ends.split('-');
  const swing = Array.from({ length: 41 }, (_, n) => {
    const at = n / 40;
    return [from + (to - from) * at, y - 20 * swingAt(at, left, right)] as const;
  });
  return h(
    'g',
    {},
    curve('asked', swing, { 'stroke-width': 1.2, 'stroke-dasharray': '4 3' }),
    curve(
      'asked',
      swing.map(([x, up]) => [x, 2 * y - up] as const),
      { 'stroke-width': 1.2, 'stroke-dasharray': '4 3' },
    ),
    line('text', from, y, to, y, { 'stroke-width': 6, 'stroke-opacity': 0.75 }),
    drawEnd(left, from, y, -1),
    drawEnd(right, to, y, 1),
    write(says, (from + to) / 2, 82, { 'text-anchor': 'middle', 'font-size': SMALL, 'fill-opacity': 0.85 }),
  );
}

/** Only the look of the first swing: flat where an end is fixed, slanted where it can tilt, loose where it is free. */
function swingAt(at: number, left: string | undefined, right: string | undefined): number {
  if (right === 'free') return at ** 2 * 0.9;
  const rise = left === 'fixed' ? Math.sin((Math.PI / 2) * Math.min(1, at * 2)) ** 2 : Math.sin(Math.PI * at);
  const fall =
    right === 'fixed' ? Math.sin((Math.PI / 2) * Math.min(1, (1 - at) * 2)) ** 2 : Math.sin(Math.PI * at);
  return at < 0.5 ? rise : fall;
}

/** How an end is held: fixed by two bearings, supported by one, or not at all. */
function drawEnd(how: string | undefined, x: number, y: number, side: -1 | 1): ViewElement {
  const bearing = (at: number) =>
    h('rect', {
      class: 'block',
      x: at - 5,
      y: y - 13,
      width: 10,
      height: 26,
      rx: 1,
      fill: '#fff',
      stroke: 'currentColor',
      'stroke-width': 1.5,
    });
  const bearings =
    how === 'fixed' ? [bearing(x), bearing(x + side * 13)] : how === 'supported' ? [bearing(x)] : [];
  return h(
    'g',
    {},
    bearings,
    note('text', said(how ?? ''), x + side * 8, y + 28, { 'text-anchor': 'middle' }),
  );
}
