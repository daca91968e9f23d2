import { estimateWidth } from '../drawing/text-width.ts';
import { h, type ViewElement } from '../view.ts';

/**
 * The few inks of all pictures. What is given is solid, what is asked for is dashed, what is spare is hatched, so that
 * nothing is told by colour alone; a style sheet may change the colours by the classes of the same names.
 */
export const INKS = {
  given: '#0b6e74',
  asked: '#a8481a',
  spare: '#0b6e74',
  wanted: '#5a3f94',
  rule: '#8b959b',
  text: '#22272b',
} as const;
export type Ink = keyof typeof INKS;

/** Sizes of text in pictures, in their own units. */
export const TEXT = 11.5;
export const SMALL = 10;

export const FONT = 'system-ui, "Segoe UI", "Liberation Sans", Arial, sans-serif';

/** An empty picture of this size. */
export function canvas(
  name: string,
  width: number,
  height: number,
  says: string,
  ...children: readonly (ViewElement | undefined | readonly (ViewElement | undefined)[])[]
): ViewElement {
  return h(
    'svg',
    {
      class: `pic ${name}`,
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'img',
      'aria-label': says,
      'font-family': FONT,
      'font-size': TEXT,
      color: INKS.text,
    },
    ...children,
  );
}

/** A straight line. */
export function line(
  ink: Ink,
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  more: Readonly<Record<string, string | number>> = {},
): ViewElement {
  const ends = { x1: tenth(x1), y1: tenth(y1), x2: tenth(x2), y2: tenth(y2) };
  return h('line', { class: `ink-${ink}`, ...ends, stroke: INKS[ink], 'stroke-width': 1, ...more });
}

/** A line through points, open. */
export function curve(
  ink: Ink,
  points: readonly (readonly [x: number, y: number])[],
  more: Readonly<Record<string, string | number>> = {},
): ViewElement {
  return h('polyline', {
    class: `ink-${ink}`,
    points: points.map(([x, y]) => `${tenth(x)},${tenth(y)}`).join(' '),
    fill: 'none',
    stroke: INKS[ink],
    'stroke-width': 2,
    'stroke-linejoin': 'round',
    ...more,
  });
}

/** A filled area. */
export function area(
  ink: Ink,
  x: number,
  y: number,
  width: number,
  height: number,
  more: Readonly<Record<string, string | number>> = {},
): ViewElement {
  const box = {
    x: tenth(x),
    y: tenth(y),
    width: tenth(Math.max(0, width)),
    height: tenth(Math.max(0, height)),
  };
  return h('rect', { class: `fill-${ink}`, ...box, fill: INKS[ink], ...more });
}

/** Slanted strokes over an area: what is spare. */
export function hatch(ink: Ink, x: number, y: number, width: number, height: number): ViewElement {
  const step = 6;
  const strokes: string[] = [];
  for (let at = -height; at < width; at += step) {
    const from = Math.max(0, at);
    const to = Math.min(width, at + height);
    if (to > from)
      strokes.push(
        `M${tenth(x + from)} ${tenth(y + height - (from - at))}L${tenth(x + to)} ${tenth(y + height - (to - at))}`,
      );
  }
  return h('path', {
    class: `ink-${ink}`,
    d: strokes.join(''),
    stroke: INKS[ink],
    'stroke-width': 1,
    fill: 'none',
  });
}

/** A text. Its anchor is where it is fixed: start, middle or end. */
export function write(
  text: string,
  x: number,
  y: number,
  more: Readonly<Record<string, string | number | undefined>> = {},
): ViewElement {
  return h('text', { x: tenth(x), y: tenth(y), fill: 'currentColor', ...more }, text);
}

/** Small text in the colour of an ink, with a rim of the ground round its letters, so that no line runs through it. */
export function note(
  ink: Ink,
  text: string,
  x: number,
  y: number,
  more: Readonly<Record<string, string | number>> = {},
): ViewElement {
  return write(text, x, y, {
    class: `halo fill-${ink}`,
    fill: INKS[ink],
    stroke: '#fff',
    'stroke-width': 3.5,
    'stroke-linejoin': 'round',
    'paint-order': 'stroke',
    'font-size': SMALL,
    ...more,
  });
}

/** To a tenth of a unit, which is finer than any screen. */
export function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** How wide a text is at a size. */
export const widthOf = (text: string, size = SMALL): number => estimateWidth(text, size);
