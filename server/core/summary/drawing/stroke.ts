import { later } from '../../language/say.ts';
import { readColour } from '../../units/colours.ts';
import type { DrawnLink } from './drawing.ts';

/** How the line of a link is drawn: its shades, or none and a dash pattern that tells its kind. */
export interface Stroke {
  readonly shades: readonly string[];
  readonly width: number;
  readonly dash?: string;
}

/** The kinds of link in the order of the legend, with their line where the wire's colour is not given. */
export const KINDS: ReadonlyMap<DrawnLink['kind'], { readonly name: string; readonly stroke: Stroke }> =
  new Map([
    ['mains', { name: later`mains`, stroke: { shades: [], width: 2.4, dash: '12 3 2 3' } }],
    ['power', { name: later`supply`, stroke: { shades: [], width: 2.4 } }],
    ['signal', { name: later`signal`, stroke: { shades: [], width: 1.4 } }],
    ['motor', { name: later`motor`, stroke: { shades: [], width: 2, dash: '8 4' } }],
    ['earth', { name: later`earth`, stroke: { shades: [], width: 2, dash: '2.5 3.5' } }],
  ]);

/** The line of a link: in the wire's own colours where they are known, else plain with the dashes of its kind. */
export function strokeOf({ colour, kind }: DrawnLink): Stroke {
  const shades = colour === undefined ? [] : (readColour(colour).value?.shades ?? []);
  const plain = KINDS.get(kind)?.stroke ?? { shades: [], width: 1.4 };
  return shades.length > 0 ? { shades, width: plain.width + 0.6 } : plain;
}

/**
 * The lines that make up a coloured wire, from the lowest to the topmost: the first shade throughout, each further one
 * as dashes over it.
 */
export function layersOf({
  shades,
  width,
}: Stroke): readonly { shade: string; width: number; dash?: string }[] {
  return shades.map((shade, layer) =>
    layer === 0 ? { shade, width } : { shade, width, dash: layer === 1 ? '7 7' : '3 11' },
  );
}
