import { nearestName } from '../nearest.ts';
import { DIMENSIONS, type DimensionName, sameDimension } from './dimension.ts';
import { COMPOUNDS, EVERYDAY, FORCE_OF_MASS } from './everyday.ts';
import { findUnit, SIMPLE_SYMBOLS, spellInAscii, type Unit } from './unit.ts';

const SUGGESTED_SYMBOLS: readonly string[] = [...SIMPLE_SYMBOLS, ...COMPOUNDS];

/** Units by their full names, singular and plural, in either spelling of metre; lower case. */
const BY_NAME: ReadonlyMap<string, string> = new Map(
  SIMPLE_SYMBOLS.flatMap((symbol) => {
    const name = findUnit(symbol)?.name ?? symbol;
    const names = [name, name.replace('metre', 'meter'), name.replace('ampere', 'amp')];
    return names.flatMap((each) => [[each, symbol] as const, [`${each}s`, symbol] as const]);
  }),
);

/** Symbols by their lower-case letters: `mhz` could be MHz, `ma` mA. */
const BY_LETTERS = new Map<string, string[]>();
for (const symbol of SIMPLE_SYMBOLS) {
  const letters = symbol.toLowerCase();
  BY_LETTERS.set(letters, [...(BY_LETTERS.get(letters) ?? []), symbol]);
}

const LONGEST_GUESS = 40;
const MOST_VARIANTS = 16;

/** The other units that the same letters spell in another case: for `mhz` it is MHz. */
export function caseVariants(text: string): Unit[] {
  const symbol = spellInAscii(text);
  if (symbol.length > LONGEST_GUESS) return [];
  const variants = spellParts(symbol, (part) => BY_LETTERS.get(part.toLowerCase()) ?? []);
  return variants.filter((unit) => unit.symbol !== symbol);
}

/** Units that were meant by everyday words and spellings: `sec`, `VDC`, `mm/s^2`, `pulses/mm`, `N m`, `oz-in`. */
export function respell(text: string): Unit[] {
  const plain = spellInAscii(text);
  if (plain.length > LONGEST_GUESS) return [];
  const tidy = plain
    .replace(/ *(?:\/|\bper\b) */g, '/')
    .replace(/^(?:1|pulses?|steps?|counts?)(?=\/)/i, '')
    .replace(/\^|\*\*/g, '')
    .replace(/[\s*-]+/g, '.');
  const known = [plain, tidy].flatMap((each) => translateWord(each) ?? []);
  const translate = (part: string) => {
    return [translateWord(part) ?? part, ...(BY_LETTERS.get(part.toLowerCase()) ?? [])];
  };
  const units = [...known.flatMap((symbol) => findUnit(symbol) ?? []), ...spellParts(tidy, translate)];
  return units.filter((unit) => unit.symbol !== plain);
}

function translateWord(text: string): string | undefined {
  const word = text.toLowerCase();
  return EVERYDAY.get(word) ?? BY_NAME.get(word);
}

/** Units of force for units of mass (`kg.cm` where a torque is meant), of area for units of length. */
export function confusedWith(text: string): Unit[] {
  const symbols = [spellInAscii(text), ...respell(text).map((unit) => unit.symbol)];
  const isLength = (symbol: string) => {
    const unit = findUnit(symbol);
    return unit !== undefined && sameDimension(unit.dimension, DIMENSIONS.length);
  };
  return symbols.flatMap((symbol) => [
    ...spellParts(symbol, (part) => [FORCE_OF_MASS.get(part) ?? part]),
    ...(isLength(symbol) ? [`${symbol}2`] : []).flatMap((squared) => findUnit(squared) ?? []),
  ]);
}

/** Every unit that comes of translating the parts of a symbol one by one, exponents kept. */
function spellParts(symbol: string, translate: (part: string) => readonly string[]): Unit[] {
  let spelled = [''];
  for (const part of symbol.split(/([./])/)) {
    const [, letters = '', exponent = ''] = /^(.*?)([23]?)$/.exec(part) ?? [];
    const spellings = /^[./]?$/.test(part) ? [part] : translate(letters).map((each) => each + exponent);
    spelled = spelled.flatMap((start) => spellings.map((each) => start + each)).slice(0, MOST_VARIANTS);
  }
  return [...new Set(spelled)].flatMap((each) => findUnit(each) ?? []);
}

/**
 * The units that a misspelt one may stand for, likeliest first and three at most, perhaps of some dimensions only:
 * other case, everyday words, a mass for a force; and if none of these, the nearest spelling if it is near.
 */
export function nearestUnits(text: string, dimension?: DimensionName | readonly DimensionName[]): Unit[] {
  const typed = spellInAscii(text);
  if (typed === '' || typed.length > LONGEST_GUESS) return [];
  const names = typeof dimension === 'string' ? [dimension] : dimension;
  const allowed = (unit: Unit) =>
    names === undefined || names.some((name) => sameDimension(DIMENSIONS[name], unit.dimension));
  const meant = [...caseVariants(typed), ...respell(typed), ...confusedWith(typed)].filter(allowed);
  const found = meant.length > 0 ? meant : findNear(typed, allowed);
  return [...new Map(found.map((unit) => [unit.symbol, unit])).values()].slice(0, 3);
}

/** The unit whose symbol or name is a slip or two away. Of one or two letters nearly everything is, so these are left. */
function findNear(typed: string, allowed: (unit: Unit) => boolean): Unit[] {
  if (typed.length < 3) return [];
  const symbols = SUGGESTED_SYMBOLS.map((symbol) => [symbol, symbol] as const);
  const fitting = [...symbols, ...BY_NAME].filter(([, symbol]) => {
    const unit = findUnit(symbol);
    return unit !== undefined && allowed(unit);
  });
  const near = new Map(fitting);
  const name = nearestName(typed, near.keys());
  return name === undefined ? [] : [findUnit(near.get(name) ?? '')].filter((unit) => unit !== undefined);
}

/** All units of a dimension worth listing, for completion: simple ones first. */
export function listUnits(dimension: DimensionName): string[] {
  const fits = (unit: Unit | undefined) => unit && sameDimension(unit.dimension, DIMENSIONS[dimension]);
  return SUGGESTED_SYMBOLS.filter((symbol) => fits(findUnit(symbol)));
}
