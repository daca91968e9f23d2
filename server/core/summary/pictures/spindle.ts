import type { MachineAnalysis } from '../../analysis.ts';
import { soundValue } from '../../findings/common/held-back.ts';
import { say } from '../../language/say.ts';
import { keyedInMeaning } from '../../model/settings.ts';
import { formatNumber, toUnit } from '../../units/index.ts';
import { keyedInput } from '../../values/collect.ts';
import { outputSpan, readSpindle } from '../../values/spindle-parts.ts';
import type { SummaryItem } from '../summary.ts';
import { h, type ViewElement } from '../view.ts';
import { canvas, curve, hatch, INKS, line, note, SMALL, tenth, write } from './ink.ts';
import { axisBelow, axisLeft, type Scale, scaleTo } from './scale.ts';

const WIDTH = 720;
const [LEFT, RIGHT] = [56, 700];

/** Speeds in rpm, voltages in V, errors in %. */
interface SpindleCurve {
  readonly top: number;
  readonly bottom: number;
  readonly full: number;
  readonly least: number | undefined;
  readonly wanted: number | undefined;
  readonly readings: readonly Reading[];
}

interface Reading {
  readonly asked: number;
  readonly seen: number;
  readonly error: number;
  /** What is left once the corrected top speed is keyed in; undefined while that is not known. */
  readonly left: number | undefined;
}

/** The speed signal against the speed, and how far the spindle was seen to be off. */
export function spindleItems(analysis: MachineAnalysis): SummaryItem[] {
  const curve = readCurve(analysis);
  if (!curve) return [];
  const says = sayCurve(analysis, curve);
  const picture = { title: say`Speed signal`, svg: drawCurve(curve, says.join(' ')), says };
  return [{ id: 'spindle', section: 'spindle', kind: 'picture', picture }];
}

const rpm = (si: number): number => toUnit(si, 'rpm');

function readCurve(analysis: MachineAnalysis): SpindleCurve | undefined {
  const { machine } = analysis;
  const spindle = readSpindle(machine);
  const span = spindle && outputSpan(spindle);
  const keyed = keyedInput(
    'top speed',
    spindle?.controller && keyedInMeaning(machine.file, spindle.controller, 'spindle-top-speed'),
  );
  if (!spindle || !span || !keyed || !(keyed.value > 0)) return undefined;
  const speed = (key: string): number | undefined => {
    const given = spindle.fields.quantity(key)?.value.value;
    return given === undefined ? undefined : rpm(given);
  };
  const corrected = soundValue(analysis, 'spindle.corrected-top-speed')?.si;
  const gain = corrected === undefined ? undefined : corrected / keyed.value;
  const readings = spindle.fields.items('readings').flatMap((fields): Reading[] => {
    const [asked, seen] = ['asked', 'seen'].map((key) => fields.quantity(key)?.value.value);
    if (asked === undefined || seen === undefined || !(asked > 0)) return [];
    const off = (share: number) => (share - 1) * 100;
    return [
      {
        asked: rpm(asked),
        seen: rpm(seen),
        error: off(seen / asked),
        left: gain && off(seen / asked / gain),
      },
    ];
  });
  return {
    top: span.top.value,
    bottom: span.bottom.value,
    full: rpm(keyed.value),
    least: speed('least-speed'),
    wanted: speed('top-speed'),
    readings: readings.sort((a, b) => a.asked - b.asked),
  };
}

const brief = (number: number) => formatNumber(number, 4);
const signed = (error: number) =>
  `${error > 0 ? '+' : error < 0 ? '−' : ''}${formatNumber(Math.abs(error), 2)} %`;

function sayCurve(analysis: MachineAnalysis, { top, bottom, full, least, readings }: SpindleCurve): string[] {
  const value = (address: string) => soundValue(analysis, `spindle.${address}`);
  const [per, step, corrected, left] = [
    'volts-per-1000rpm',
    'speed-step',
    'corrected-top-speed',
    'reading-error-left',
  ].map(value);
  const says = [
    say`${brief(bottom)} V to ${brief(top)} V ask for 0 to ${brief(full)} rpm${per ? say`, ${brief(per.value)} V for each 1000 rpm` : ''}${step ? say`, in steps of ${formatNumber(step.value, 3)} rpm` : ''}.`,
  ];
  if (least !== undefined) says.push(say`Below ${brief(least)} rpm the spindle must not run.`);
  for (const { asked, seen, error } of readings)
    says.push(say`Asked for ${brief(asked)} rpm, ${brief(seen)} rpm were seen: ${signed(error)}.`);
  if (corrected && left)
    says.push(say`With ${brief(corrected.value)} rpm keyed in, ${signed(left.value)} would be left.`);
  return says;
}

function drawCurve(spindle: SpindleCurve, says: string): ViewElement {
  const { top, bottom, full, least, wanted, readings } = spindle;
  const most = Math.max(full, wanted ?? 0, ...readings.flatMap(({ asked, seen }) => [asked, seen])) * 1.06;
  const x = scaleTo(most, LEFT, RIGHT);
  const y = scaleTo(top, 190, 40);
  const height = readings.length > 0 ? 352 : 226;
  const volts = (speed: number) => bottom + ((top - bottom) * speed) / full;
  return canvas(
    'spindle',
    WIDTH,
    height,
    says,
    axisLeft(y, top, LEFT, 'V', RIGHT - LEFT),
    axisBelow(x, most, 190, say`rpm asked for`, 150),
    least === undefined
      ? undefined
      : h(
          'g',
          { opacity: 0.55 },
          hatch('rule', x(0), 40, x(least) - x(0), 150),
          line('asked', x(least), 40, x(least), 190, { 'stroke-dasharray': '6 3' }),
        ),
    least === undefined ? undefined : note('asked', say`least ${brief(least)} rpm`, x(least) + 6, 54),
    curve(
      'given',
      [
        [x(0), y(bottom)],
        [x(full), y(top)],
      ],
      { 'stroke-width': 2.6 },
    ),
    note('given', say`full signal: ${brief(full)} rpm at ${brief(top)} V`, x(full) - 8, 30, {
      'text-anchor': 'end',
      'font-weight': 600,
    }),
    readings.map(({ asked, seen }) =>
      h(
        'g',
        {},
        line('asked', x(asked), y(volts(asked)), x(seen), y(volts(asked)), { 'stroke-width': 2 }),
        mark(x(asked), y(volts(asked)), 'none', 'given'),
        mark(x(seen), y(volts(asked)), INKS.asked, 'asked'),
      ),
    ),
    readings.length > 0 ? drawErrors(readings, x) : undefined,
  );
}

function mark(x: number, y: number, fill: string, ink: 'given' | 'asked'): ViewElement {
  const look = fill === 'none' ? `ink-${ink}` : `ink-${ink} fill-${ink}`;
  return h('circle', {
    class: look,
    cx: tenth(x),
    cy: tenth(y),
    r: 4,
    fill,
    stroke: INKS[ink],
    'stroke-width': 1.6,
  });
}

/** How far each reading is off, as measured and as it would be with the corrected top speed. */
function drawErrors(readings: readonly Reading[], x: Scale): ViewElement {
  const worst = Math.max(
    0.1,
    ...readings.flatMap(({ error, left = 0 }) => [Math.abs(error), Math.abs(left)]),
  );
  const middle = 290;
  const y = (error: number) => middle - (error / worst) * 34;
  return h(
    'g',
    {},
    write(say`error`, LEFT - 6, middle - 34, {
      'text-anchor': 'end',
      'font-size': SMALL,
      'fill-opacity': 0.8,
    }),
    line('rule', LEFT, middle, RIGHT, middle),
    write('0 %', LEFT - 6, middle + 3.5, { 'text-anchor': 'end', 'font-size': SMALL, 'fill-opacity': 0.8 }),
    readings.map(({ asked, error, left }) =>
      h(
        'g',
        {},
        line('asked', x(asked), middle, x(asked), y(error), { 'stroke-width': 7 }),
        note('asked', signed(error), x(asked) - 8, y(error) + (error < 0 ? 3 : 4), {
          'text-anchor': 'end',
          'font-weight': 600,
        }),
        left === undefined
          ? undefined
          : line('given', x(asked) + 10, middle, x(asked) + 10, y(left), { 'stroke-width': 5 }),
      ),
    ),
    note('asked', say`as measured`, LEFT + 8, 344),
    note('given', say`with the corrected top speed keyed in`, LEFT + 84, 344),
  );
}
