import type { Random } from '../support/random.ts';
import { placesToType } from './machines.ts';

/** What somebody does to a text in one go: the stretch between two offsets becomes another text. */
export interface Edit {
  readonly from: number;
  readonly to: number;
  readonly typed: string;
}

const insert = (at: number, typed: string): Edit => ({ from: at, to: at, typed });

/** A letter at the end of what a pattern finds, at one of its places. */
function lengthen(pattern: RegExp): (text: string, random: Random) => Edit {
  return (text, random) => {
    const { 0: found, index } = random.oneOf([...text.matchAll(pattern)]);
    return insert(index + found.length, 'x');
  };
}

/**
 * Kinds of edit, from those of which nothing follows to those of which much does: a name that is typed leaves all links to
 * its part without an end, and its sheet decides what is known of it.
 */
export const EDITS = {
  comment: lengthen(/^ *#.*$/gm),
  figure: (text, random) => insert(random.oneOf(placesToType(text)), '1'),
  'end of a link': lengthen(/-> [\w-]+\.[\w+-]+/g),
  'pasted link': (text, random) => {
    const { 0: line, index } = random.oneOf([...text.matchAll(/^ {2}- .*->.*\n/gm)]);
    return insert(index + line.length, line);
  },
  'name of a part': lengthen(/^ {2}[\w-]+(?=: +\{ sheet)/gm),
  'name of a sheet': lengthen(/sheet: generic\/[\w-]+/g),
} as const satisfies Readonly<Record<string, (text: string, random: Random) => Edit>>;

/** Places just behind the decimal point of a length: what is typed there changes a figure with every key. */
export const placesForBursts = (text: string): readonly number[] =>
  [...text.matchAll(/length: +\d+\.(?=\d)/g)].map(({ 0: found, index }) => index + found.length);
