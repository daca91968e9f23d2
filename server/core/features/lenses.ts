import type { Analysis, MachineAnalysis } from '../analysis.ts';
import { soundValue } from '../findings/common/held-back.ts';
import { say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Span } from '../syntax/node.ts';
import { pairOf } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';
import { type Derived, showBriefly } from '../values/derived.ts';

export const LENS_KINDS = ['axes', 'parts', 'spindle', 'handwheel'] as const;

/** What headline figures stand above; each can be switched off. */
export type LensKind = (typeof LENS_KINDS)[number];

/** A line of headline figures above a thing of the text. */
export interface Lens {
  readonly kind: LensKind;
  /** Where the thing's name stands. */
  readonly from: number;
  readonly to: number;
  readonly title: string;
  /** Where what the wiring summary shows of it stands: a click opens the summary there. */
  readonly opens: number;
}

/** The headline figures of axes, supplies and other parts that have numbers, of spindle and handwheel. */
export function listLenses(analysis: Analysis): Lens[] {
  if (analysis.kind !== 'machine') return [];
  const { machine } = analysis;
  return [
    ...[...machine.parts.values()].map((part) =>
      lens(analysis, 'parts', part.key, partFigures(analysis, part)),
    ),
    ...[...machine.axes.values()].map((axis) =>
      lens(analysis, 'axes', axis.key, axisFigures(analysis, axis.name)),
    ),
    sectionLens(analysis, 'spindle', 'converter', spindleFigures(analysis)),
    sectionLens(analysis, 'handwheel', 'part', handwheelFigures(analysis)),
  ].filter((each) => each !== undefined);
}

function lens(
  { tree }: MachineAnalysis,
  kind: LensKind,
  at: Span | undefined,
  figures: readonly string[],
  opens = at,
): Lens | undefined {
  const range = at && rangeOf(tree, at);
  const target = opens && rangeOf(tree, opens);
  return range && figures.length > 0
    ? { kind, ...range, title: figures.join(' · '), opens: target?.from ?? range.from }
    : undefined;
}

/** Above a section of the machine that stands for a part, which it names under a key. */
function sectionLens(
  analysis: MachineAnalysis,
  section: 'spindle' | 'handwheel',
  key: string,
  figures: readonly string[],
): Lens | undefined {
  const part = analysis.machine.fields.child(section).text(key)?.at;
  return lens(analysis, section, pairOf(analysis.tree.root, section)?.key, figures, part);
}

function axisFigures(analysis: MachineAnalysis, axis: string): string[] {
  const figure = sayFrom(analysis, `axes.${axis}`);
  return [
    ...figure('pulses-per-length', ({ shown }) => shown),
    ...figure('top-feed', (feed) => say`top feed ${showBriefly(feed)} (${feed.limit})`),
    ...figure('torque-margin', (margin) => say`torque × ${showBriefly(margin)}`),
  ];
}

function partFigures(analysis: MachineAnalysis, { name }: Part): string[] {
  const figure = sayFrom(analysis, `parts.${name}`);
  return [
    ...figure('supply-voltage', ({ shown }) => say`gets ${shown}`),
    ...figure('load', (load) => say`feeds ${showBriefly(load)}`),
    ...figure('load-share', (share) => say`${showBriefly(share)} of its current`),
  ];
}

function spindleFigures(analysis: MachineAnalysis): string[] {
  const figure = sayFrom(analysis, 'spindle');
  return [
    ...figure('top-speed', (speed) => say`top speed ${showBriefly(speed)}`),
    ...figure('volts-per-1000rpm', (volts) => say`${showBriefly(volts)} for 1000 rpm`),
    ...figure('wait-margin', (margin) =>
      margin.si < 0
        ? say`waits ${showBriefly(margin).replace('-', '')} less than the ramp`
        : say`waits ${showBriefly(margin)} longer than the ramp`,
    ),
  ];
}

function handwheelFigures(analysis: MachineAnalysis): string[] {
  const figure = sayFrom(analysis, 'handwheel');
  return [1, 10, 100].flatMap((times) =>
    figure(`feed-at-${times}`, (feed) => `×${times}: ${showBriefly(feed)}`),
  );
}

/** Says a value in words where it is computed. */
function sayFrom(analysis: MachineAnalysis, owner: string) {
  return (name: string, words: (value: Derived) => string): string[] => {
    const value = soundValue(analysis, `${owner}.${name}`);
    return value ? [words(value)] : [];
  };
}
