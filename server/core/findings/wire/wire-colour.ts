import type { Link } from '../../model/wiring.ts';
import type { Edit } from '../../problem.ts';
import type { Span } from '../../syntax/node.ts';
import { type Colour, readColour } from '../../units/colours.ts';

/** A colour as it is written, and where. */
export interface ColourAt {
  readonly colour: Colour;
  readonly text: string;
  readonly at: Span;
  readonly replaceBy: (code: string) => Edit | undefined;
}

/** The colour of a link's conductor, where one is written: behind the link, or in its own wire. */
export function colourAt({ wire }: Link): ColourAt | undefined {
  const own = wire.own?.text('wire');
  return (
    (wire.colour && findColour(wire.colour.text, wire.colour.at)) ?? (own && findColour(own.text, own.at))
  );
}

/** The last word of a wire's text that is a colour. */
function findColour(text: string, whole: Span): ColourAt | undefined {
  const words = [...text.matchAll(/\S+/g)].reverse();
  for (const { 0: word, index } of words) {
    const colour = /^awg$/i.test(word) ? undefined : readColour(word).value;
    if (!colour) continue;
    const at = placeIn(whole, text, index, word.length);
    return {
      colour,
      text: word,
      at: at ?? whole,
      replaceBy: (code) => at && { at, text: code },
    };
  }
  return undefined;
}

/** The place of a word of a text; undefined where the text does not stand there letter by letter. */
function placeIn(whole: Span, text: string, from: number, length: number): Span | undefined {
  const shown = whole.block.text.slice(whole.from, whole.to);
  const start = shown.indexOf(text);
  if (start < 0) return undefined;
  const at = whole.from + start + from;
  return { block: whole.block, from: at, to: at + length };
}
