import { formatNumber } from '../../units/index.ts';
import type { ViewElement } from '../view.ts';
import { line, note, SMALL, tenth, widthOf, write } from './ink.ts';

/** A straight scale: from a value to a place in the picture. */
export type Scale = (value: number) => number;

/** Makes a scale from 0 to `most` that runs from place `from` to place `to`. */
export function scaleTo(most: number, from: number, to: number): Scale {
  return (value) => from + (most > 0 ? value / most : 0) * (to - from);
}

/** Round values from 0 to `most`, about so many: 1, 2, 2.5 or 5 times a power of ten apart. */
export function roundTicks(most: number, count: number): number[] {
  if (!(most > 0) || !Number.isFinite(most)) return [0];
  const raw = most / count;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 2.5, 5, 10].map((times) => times * power).find((each) => each >= raw * 0.999) ?? raw;
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, number) =>
    Number((number * step).toPrecision(12)),
  );
}

/** A scale along the bottom, with its unit at the end. */
export function axisBelow(scale: Scale, most: number, y: number, unit: string, up = 0): ViewElement[] {
  const ticks = roundTicks(most, 6);
  const [start, end] = [scale(0), scale(most)];
  return [
    ...ticks.flatMap((tick) => [
      up > 0 ? line('rule', scale(tick), y, scale(tick), y - up, { 'stroke-opacity': 0.28 }) : undefined,
      line('rule', scale(tick), y, scale(tick), y + 4),
      write(formatNumber(tick, 5), scale(tick), y + 15, {
        'text-anchor': 'middle',
        'font-size': SMALL,
        'fill-opacity': 0.8,
      }),
    ]),
    line('rule', start, y, end, y),
    write(unit, end, y + 28, { 'text-anchor': 'end', 'font-size': SMALL, 'fill-opacity': 0.8 }),
  ].filter((each) => each !== undefined);
}

/** A scale along the left, with its unit on top. */
export function axisLeft(scale: Scale, most: number, x: number, unit: string, across = 0): ViewElement[] {
  return [
    ...roundTicks(most, 4).flatMap((tick) => [
      across > 0
        ? line('rule', x, scale(tick), x + across, scale(tick), { 'stroke-opacity': 0.28 })
        : undefined,
      write(formatNumber(tick, 4), x - 6, scale(tick) + 3.5, {
        'text-anchor': 'end',
        'font-size': SMALL,
        'fill-opacity': 0.8,
      }),
    ]),
    line('rule', x, scale(0), x, scale(most)),
    write(unit, x - 6, scale(most) - 10, { 'text-anchor': 'end', 'font-size': SMALL, 'fill-opacity': 0.8 }),
  ].filter((each) => each !== undefined);
}

/** A text fixed to a place along a line, before it has been given a row of its own. */
export interface Flag {
  readonly x: number;
  readonly text: string;
}

/** A flag in its row, from 0, with the place and the anchor of its text. */
export type Placed<F extends Flag> = F & {
  readonly row: number;
  readonly textX: number;
  readonly anchor: 'start' | 'end';
};

/** Gives each flag the lowest row in which its text meets no other; texts stay left of `right`. */
export function placeFlags<F extends Flag>(flags: readonly F[], right: number, size = SMALL): Placed<F>[] {
  const taken: [from: number, to: number][][] = [];
  return [...flags]
    .sort((a, b) => a.x - b.x)
    .map((flag) => {
      const width = widthOf(flag.text, size) + 10;
      const isRight = flag.x + width > right;
      const [from, to] = isRight ? [flag.x - width, flag.x] : [flag.x, flag.x + width];
      let row = taken.findIndex((spans) => spans.every(([a, b]) => to <= a || from >= b));
      if (row < 0) row = taken.push([]) - 1;
      taken[row]?.push([from, to]);
      return { ...flag, row, textX: tenth(flag.x + (isRight ? -5 : 5)), anchor: isRight ? 'end' : 'start' };
    });
}

/** The text of a placed flag. */
export function writeFlag(flag: Placed<Flag>, y: number, ink: Parameters<typeof note>[0]): ViewElement {
  return note(ink, flag.text, flag.textX, y, { 'text-anchor': flag.anchor });
}
