import type { MachineAnalysis } from '../../analysis.ts';
import { soundValue } from '../../findings/common/held-back.ts';
import { later, said, say } from '../../language/say.ts';
import { formatBest, formatNumber } from '../../units/index.ts';
import type { Input } from '../../values/derived.ts';
import { axisId } from '../places.ts';
import type { SummaryItem } from '../summary.ts';
import { h, type ViewElement } from '../view.ts';
import { area, canvas, curve, hatch, line, note, SMALL, write } from './ink.ts';
import { axisBelow, type Scale, scaleTo } from './scale.ts';

/** One time of the pulse and direction signals: what the controller gives and what the drive asks for, in s. */
interface Span {
  /** What it is: one of the names of `SPANS`, to be said. */
  readonly name: string;
  readonly given: Input;
  readonly asked: Input;
  /** What the delays of the inputs take away, in s. */
  readonly lost: number;
  /** given − asked − lost */
  readonly spare: number;
}

const SPANS = [
  ['lead-margin', later`direction ahead`],
  ['on-margin', later`pulse on`],
  ['off-margin', later`pulse off`],
  ['hold-margin', later`direction held`],
] as const;

const WIDTH = 720;
const LEFT = 112;
const RIGHT = 500;
const ROW = 26;

/** The pulse and direction signals of each axis to scale. Axes whose times are the same share a picture. */
export function timingItems(analysis: MachineAnalysis): SummaryItem[] {
  const byTimes = new Map<string, { axes: string[]; spans: readonly Span[] }>();
  for (const axis of analysis.machine.axes.keys()) {
    const spans = readSpans(analysis, axis);
    if (spans.length === 0) continue;
    const key = spans
      .map(({ name, given, asked, lost }) => [name, given.value, asked.value, lost].join())
      .join(';');
    const there = byTimes.get(key);
    if (there) there.axes.push(axis);
    else byTimes.set(key, { axes: [axis], spans });
  }
  return [...byTimes.values()].map(({ axes, spans }): SummaryItem => {
    const [first = ''] = axes;
    const title = axes.length > 1 ? say`Axes ${listNames(axes)}` : say`Axis ${first}`;
    const says = spans.map(saySpan);
    const svg = drawTiming(spans, say`Pulse and direction signals of ${title}, to scale. ${says.join(' ')}`);
    return {
      id: `timing:${first}`,
      section: 'timing',
      kind: 'picture',
      picture: { title, titleId: axisId(first), svg, says },
    };
  });
}

function listNames(names: readonly string[]): string {
  return say`${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function readSpans(analysis: MachineAnalysis, axis: string): Span[] {
  return SPANS.flatMap(([margin, name]): Span[] => {
    const derived = soundValue(analysis, `axes.${axis}.timing.${margin}`);
    const [given, asked, skew] = derived?.inputs ?? [];
    return derived && given && asked
      ? [{ name, given, asked, lost: skew?.value ?? 0, spare: derived.si }]
      : [];
  });
}

const time = (seconds: number): string => formatBest(seconds, 'time', 4);

function saySpan({ name, given, asked, lost, spare }: Span): string {
  const share = asked.value > 0 ? `, ${formatNumber((Math.abs(spare) / asked.value) * 100, 3)} %` : '';
  const skew = lost > 0 ? say`; the inputs take ${time(lost)} of it` : '';
  const verdict = spare < 0 ? say`too short by ${time(-spare)}` : say`${time(spare)} to spare`;
  return say`${sayGiven(name, time(given.value))}; the drive asks for ${time(asked.value)}${skew}: ${verdict}${share}.`;
}

function sayGiven(name: string, given: string): string {
  switch (name) {
    case 'direction ahead':
      return say`Direction stands ahead of the pulse for ${given}`;
    case 'pulse on':
      return say`The pulse is on for ${given}`;
    case 'pulse off':
      return say`The pulse is off for ${given}`;
    default:
      return say`Direction stands after the pulse for ${given}`;
  }
}

function drawTiming(spans: readonly Span[], says: string): ViewElement {
  const of = (name: string) => spans.find((span) => span.name === name);
  const length = (span: Span | undefined) =>
    span ? Math.max(span.given.value, span.asked.value + span.lost) : 0;
  const known = Math.max(...spans.map(length));
  const lead = of('direction ahead')?.given.value ?? known / 3;
  const on = of('pulse on')?.given.value ?? known / 3;
  const off = of('pulse off')?.given.value ?? known / 3;
  const begins: Readonly<Record<string, number>> = {
    'direction ahead': 0,
    'pulse on': lead,
    'pulse off': lead + on,
    'direction held': lead + on,
  };
  const ends = spans.map((span) => (begins[span.name] ?? 0) + length(span));
  const most = Math.max(lead + on + off + on / 2, ...ends) * 1.02;
  const scale = scaleTo(most, LEFT, RIGHT);
  const unit =
    most < 1e-6 ? (['ns', 1e9] as const) : most < 1e-3 ? (['us', 1e6] as const) : (['ms', 1e3] as const);
  const bars = 104;
  const bottom = bars + spans.length * ROW;
  return canvas(
    'timing',
    WIDTH,
    bottom + 34,
    says,
    [...new Set([0, lead, lead + on, lead + on + off])].map((at) =>
      line('rule', scale(at), 14, scale(at), bottom, { 'stroke-dasharray': '2 3', 'stroke-opacity': 0.6 }),
    ),
    drawSignals(scale, most, lead, on, off),
    spans.map((span, row) => drawSpan(span, scale, begins[span.name] ?? 0, bars + row * ROW)),
    axisBelow((value) => scale(value / unit[1]), most * unit[1], bottom + 2, unit[0]),
  );
}

/** The two signals, drawn as the drive sees them: direction changes, then a pulse comes. */
function drawSignals(scale: Scale, most: number, lead: number, on: number, off: number): ViewElement {
  const steps: [at: number, level: 0 | 1][] = [
    [lead, 1],
    [lead + on, 0],
    [lead + on + off, 1],
    [lead + on + off + on, 0],
  ];
  const [high, low] = [62, 88];
  const pulse: [number, number][] = [[scale(0) - 14, low]];
  let level: 0 | 1 = 0;
  for (const [at, next] of steps) {
    if (at > most) break;
    pulse.push([scale(at), level ? high : low], [scale(at), next ? high : low]);
    level = next;
  }
  pulse.push([scale(most), level ? high : low]);
  const [top, under] = [18, 44];
  const change = scale(0);
  return h(
    'g',
    {},
    write(say`direction`, LEFT - 22, 35, { 'text-anchor': 'end' }),
    write(say`pulse`, LEFT - 22, 79, { 'text-anchor': 'end' }),
    curve('given', [
      [change - 14, top],
      [change - 3, top],
      [change + 3, under],
      [scale(most), under],
    ]),
    curve('given', [
      [change - 14, under],
      [change - 3, under],
      [change + 3, top],
      [scale(most), top],
    ]),
    curve('given', pulse),
  );
}

/** One time as a bar below the signals: what is asked for, and behind it what is spare, or by how much it falls short. */
function drawSpan(
  { name, given, asked, lost, spare }: Span,
  scale: Scale,
  begin: number,
  y: number,
): ViewElement {
  const [start, needs, ends] = [begin, begin + asked.value + lost, begin + given.value].map(scale) as [
    number,
    number,
    number,
  ];
  const height = 12;
  const verdict = spare < 0 ? say`short by ${time(-spare)}` : say`${time(spare)} to spare`;
  return h(
    'g',
    {},
    write(said(name), LEFT - 22, y + 10, { 'text-anchor': 'end', 'font-size': SMALL + 0.5 }),
    area('asked', start, y, Math.min(needs, ends) - start, height, { 'fill-opacity': 0.75 }),
    spare < 0
      ? area('asked', ends, y, needs - ends, height, {
          'fill-opacity': 0.15,
          stroke: '#a8481a',
          'stroke-dasharray': '3 2',
        })
      : hatch('spare', needs, y, ends - needs, height),
    line('given', ends, y - 3, ends, y + height + 3, { 'stroke-width': 2 }),
    write(say`asks ${time(asked.value)}, given ${time(given.value)}`, RIGHT + 14, y + 6, {
      'font-size': SMALL,
    }),
    note(spare < 0 ? 'asked' : 'given', verdict, RIGHT + 14, y + 18, { 'font-weight': 600 }),
  );
}
