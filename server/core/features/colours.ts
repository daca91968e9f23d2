import type { Analysis } from '../analysis.ts';
import { readLinkText } from '../model/link.ts';
import { type Node, type Scalar, valueUnder } from '../syntax/node.ts';
import { rangeOf } from '../syntax/tree.ts';
import { COLOUR_CODES, readColour } from '../units/index.ts';

/** Red, green and blue, each from 0 to 1. */
export interface Shade {
  readonly red: number;
  readonly green: number;
  readonly blue: number;
}

/** One colour of a conductor where it is written: two letters, so a conductor of two colours has two. */
export interface ColourPlace {
  readonly from: number;
  readonly to: number;
  readonly shade: Shade;
}

/** The wire colours of a machine's text, in its order. */
export function listColours({ kind, tree }: Pick<Analysis, 'kind' | 'tree'>): ColourPlace[] {
  const wiring = kind === 'machine' ? valueUnder(tree.root, 'wiring') : undefined;
  const places: ColourPlace[] = [];
  for (const scalar of wireTexts(wiring)) {
    const start = rangeOf(tree, scalar)?.from;
    if (start === undefined || scalar.textFrom === undefined) continue;
    for (const place of coloursOf(scalar)) {
      const shift = start + scalar.textFrom - scalar.from;
      places.push({ ...place, from: shift + place.from, to: shift + place.to });
    }
  }
  return places.sort((a, b) => a.from - b.from);
}

/** Links, and what is said of wires. */
function* wireTexts(node: Node | undefined): Generator<Scalar> {
  for (const item of node?.kind === 'list' ? node.items : []) {
    if (item?.kind === 'scalar') yield item;
    if (item?.kind !== 'map') continue;
    for (const key of ['link', 'wire']) {
      const value = valueUnder(item, key);
      if (value?.kind === 'scalar') yield value;
    }
    yield* wireTexts(valueUnder(item, 'links'));
  }
}

const kept = new WeakMap<Scalar, readonly ColourPlace[]>();

/** The colours in a text that is a link or a wire, from the start of that text. */
function coloursOf(scalar: Scalar): readonly ColourPlace[] {
  let places = kept.get(scalar);
  if (!places) {
    places = read(scalar);
    kept.set(scalar, places);
  }
  return places;
}

function read(scalar: Scalar): ColourPlace[] {
  const { text, textFrom = 0 } = scalar;
  const isLink = text.includes('->');
  const wire = isLink ? readLinkText(scalar).wire?.at : scalar;
  if (!wire) return [];
  const from = isLink ? wire.from - textFrom : 0;
  return [...text.slice(from, from + wire.to - wire.from).matchAll(/(?<!\S)[A-Za-z/-]+(?!\S)/g)].flatMap(
    ({ 0: word, index }) => {
      const { value } = readColour(word);
      if (!value) return [];
      return [...word.matchAll(/[A-Za-z]{2}/g)].flatMap((code) => {
        const shade = shadeOf(code[0]);
        const at = from + index + code.index;
        return shade ? [{ from: at, to: at + 2, shade }] : [];
      });
    },
  );
}

/** The codes of IEC 60757 for a shade, the nearest first. */
export function nearestCodes(wanted: Shade): { readonly code: string; readonly name: string }[] {
  return COLOUR_CODES.map((code) => ({
    code,
    name: readColour(code).value?.name ?? '',
    distance: distance(wanted, shadeOf(code)),
  })).sort((a, b) => a.distance - b.distance);
}

function shadeOf(code: string): Shade | undefined {
  const hex = readColour(code).value?.shades[0];
  if (hex === undefined) return undefined;
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map(
    (at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255,
  );
  return { red, green, blue };
}

/** Weighed by how bright the eye sees red, green and blue (the luma weights of ITU-R BT.601). */
function distance(a: Shade, b: Shade | undefined): number {
  if (!b) return Number.POSITIVE_INFINITY;
  return 0.299 * (a.red - b.red) ** 2 + 0.587 * (a.green - b.green) ** 2 + 0.114 * (a.blue - b.blue) ** 2;
}
