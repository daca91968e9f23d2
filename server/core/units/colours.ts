import { later, said, say } from '../language/say.ts';
import { nearestName } from '../nearest.ts';
import { keepReadings } from './keep.ts';
import { shorten } from './number.ts';
import { type Reading, refuse } from './reading.ts';

/** The colour of a conductor: one colour, or several together. */
export interface Colour {
  /** Letter code in capitals, such as `BN` or `GNYE`. Colours stand in the order typed; green and yellow are always GNYE. */
  readonly code: string;
  /** In words: `brown`, `green-yellow`. */
  readonly name: string;
  /** What to draw, one shade per colour, as #rrggbb. */
  readonly shades: readonly string[];
}

/**
 * The letter codes of IEC 60757, in the order of its table. The standard gives no shades: these are our own choice,
 * made to be told apart on a screen.
 */
const COLOURS: ReadonlyMap<string, readonly [name: string, shade: string]> = new Map([
  ['BK', [later`black`, '#1f1f1f']],
  ['BN', [later`brown`, '#7b4a21']],
  ['RD', [later`red`, '#d02020']],
  ['OG', [later`orange`, '#f07818']],
  ['YE', [later`yellow`, '#f2cf14']],
  ['GN', [later`green`, '#1f8a3b']],
  ['BU', [later`blue`, '#1f5fc4']],
  ['VT', [later`violet`, '#7d3fa8']],
  ['GY', [later`grey`, '#8c8c8c']],
  ['WH', [later`white`, '#f7f7f4']],
  ['PK', [later`pink`, '#f29ac0']],
  ['GD', [later`gold`, '#c79a2b']],
  ['TQ', [later`turquoise`, '#2fb5b0']],
  ['SR', [later`silver`, '#c4c8cc']],
]);

/** The letter codes for one colour, in the order of the standard; for completion. */
export const COLOUR_CODES: readonly string[] = [...COLOURS.keys()];

const OTHER_NAMES: ReadonlyMap<string, string> = new Map([
  ['purple', 'VT'],
  ['gray', 'GY'],
  ['light blue', 'BU'],
  ['green-yellow', 'GNYE'],
]);

/**
 * Reads a colour by its IEC 60757 code: `BN`, `GNYE`, and `WH-BU` as well as `WHBU`. Small letters mean the same.
 * A name or another abbreviation (`brown`, `BRN`) is a problem whose repair is the code.
 */
export const readColour = keepReadings(read);

function read(text: string): Reading<Colour> {
  const typed = text.trim();
  const from = text.length - text.trimStart().length;
  const codes = splitCodes(typed);
  if (codes !== undefined) return { value: buildColour(codes), problems: [] };
  const repairs = guessColours(typed).map((code) => ({
    from,
    to: from + typed.length,
    text: code,
    label: code,
  }));
  const expected = say`a colour code such as BN or GNYE`;
  const data = { reason: 'no-colour', typed: shorten(typed), expected, units: COLOUR_CODES.join(', ') };
  return refuse('unit/not-a-quantity', [from, from + typed.length], data, repairs);
}

/** The codes that a word for a colour may stand for, likeliest first: `brown` for BN; none for a code itself. */
export function codesForColour(typed: string): readonly string[] {
  return splitCodes(typed) === undefined ? guessColours(typed) : [];
}

/** One to three different codes joined by nothing, a hyphen or a stroke; otherwise undefined. */
function splitCodes(text: string): string[] | undefined {
  if (!/^[A-Za-z]{2}(?:[-/]?[A-Za-z]{2}){0,2}$/.test(text)) return undefined;
  const codes = text.toUpperCase().replace(/[-/]/g, '').match(/../g) ?? [];
  const known = codes.every((code) => COLOURS.has(code)) && new Set(codes).size === codes.length;
  if (!known) return undefined;
  // The protective conductor has one spelling only (IEC 60757, IEC 60445).
  return codes.join('') === 'YEGN' ? ['GN', 'YE'] : codes;
}

function buildColour(codes: readonly string[]): Colour {
  const entries = codes.flatMap((code) => [COLOURS.get(code) ?? []]);
  return {
    code: codes.join(''),
    name: entries.map(([name = '']) => said(name)).join('-'),
    shades: entries.flatMap(([, shade]) => shade ?? []),
  };
}

/** The codes that a word may stand for: a name, the letters of a name in order (`BRN`, `WHT`), or a near miss. */
function guessColours(typed: string): string[] {
  const word = typed.toLowerCase();
  if (word.length < 2 || word.length > 16) return [];
  const names = new Map([...[...COLOURS].map(([code, [name]]) => [name, code] as const), ...OTHER_NAMES]);
  const short = [...names.keys()].filter((name) => name.length < 8 && abbreviates(word, name));
  const near = word.length < 4 ? undefined : nearestName(word, names.keys());
  const found = [word, ...short, ...(near === undefined ? [] : [near])].flatMap(
    (name) => names.get(name) ?? [],
  );
  return [...new Set(found)].slice(0, 3);
}

/** Whether all letters of a word occur in a name in the same order, the first one first. */
function abbreviates(word: string, name: string): boolean {
  let next = 0;
  for (const letter of name) if (letter === word[next]) next++;
  return next === word.length && word[0] === name[0];
}
