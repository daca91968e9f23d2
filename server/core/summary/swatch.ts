import { readColour } from '../units/colours.ts';
import { layersOf } from './drawing/stroke.ts';
import { h, type ViewElement } from './view.ts';

/**
 * A short piece of wire in its own colours, two-colour wires striped, with its words behind it: the same mark wherever
 * a wire is named.
 */
export function wireMark(words: string, colour: string | undefined): ViewElement {
  const shades = colour === undefined ? [] : (readColour(colour).value?.shades ?? []);
  if (shades.length === 0) return h('span', { class: 'wire-mark' }, words);
  const line = { x1: 1, y1: 4, x2: 27, y2: 4 };
  return h(
    'span',
    { class: 'wire-mark' },
    h(
      'svg',
      { class: 'swatch', viewBox: '0 0 28 8', width: 28, height: 8, 'aria-hidden': 'true' },
      h('line', { class: 'casing', ...line, stroke: '#444', 'stroke-width': 6.4 }),
      layersOf({ shades, width: 5 }).map(({ shade, width, dash }) =>
        h('line', { ...line, stroke: shade, 'stroke-width': width, 'stroke-dasharray': dash }),
      ),
    ),
    words,
  );
}
