import { later, said, say } from '../language/say.ts';
import { ATOMS, type Atom, PREFIXES } from './atoms.ts';
import { DIMENSIONS, type Dimension, multiplyDimensions, siSymbol } from './dimension.ts';
import { keepReadings } from './keep.ts';

/** A unit, simple (`mm`) or built from others (`ozf.in`, `mm/s2`, `/deg`). */
export interface Unit {
  /** ASCII spelling, as it is written in files. Empty for the unit of a plain number. */
  readonly symbol: string;
  readonly name: string;
  readonly dimension: Dimension;
  /** One unit is up / down in SI units, kept apart so that 20 us and 20000 ns come out as the same number. */
  readonly up: number;
  readonly down: number;
  /** up / down, for those who want to print it. */
  readonly factor: number;
  /** The SI value of the unit's own zero: 273.15 for degC, else 0. */
  readonly zero: number;
  /** For a hover: what one unit is in SI units, and how its parts are defined. */
  readonly definition: string;
  readonly source: string;
}

/** The unit of a plain number. */
export const ONE: Unit = {
  symbol: '',
  name: later`plain number`,
  dimension: DIMENSIONS.number,
  up: 1,
  down: 1,
  factor: 1,
  zero: 0,
  definition: later`a plain number, without a unit`,
  source: later`none needed`,
};

/** Every prefixed spelling of every atom. */
const SPELLINGS: ReadonlyMap<string, Atom> = new Map(
  ATOMS.flatMap((atom) => [atom, ...atom.prefixes.split('').map((letter) => addPrefix(atom, letter))]).map(
    (atom) => [atom.symbol, atom] as const,
  ),
);

/** All simple units, prefixed ones included, for completion and suggestions. */
export const SIMPLE_SYMBOLS: readonly string[] = [...SPELLINGS.keys()];

function addPrefix(atom: Atom, letter: string): Atom {
  const [name, power] = PREFIXES.get(letter) ?? ['', 0];
  const up = power > 0 ? atom.up * 10 ** power : atom.up;
  const down = power < 0 ? atom.down * 10 ** -power : atom.down;
  return { ...atom, symbol: letter + atom.symbol, prefix: name, ...cancel(up, down) };
}

/** Keeps a kilogram at 1 / 1 rather than 1000 / 1000. */
function cancel(up: number, down: number): { up: number; down: number } {
  return up % down === 0 ? { up: up / down, down: 1 } : { up, down };
}

interface Power {
  readonly atom: Atom;
  readonly exponent: number;
}

const LONGEST_SYMBOL = 24;
const MOST_ATOMS = 4;

/**
 * The unit that a text spells, or undefined. Letters count as they are (`m` is milli, `M` is mega). Besides the
 * ASCII spelling of files, the usual signs are taken: both micro signs, both ohm signs, dots and crosses of
 * multiplication, raised digits, the degree sign.
 */
export const findUnit = keepReadings(readUnit);

function readUnit(text: string): Unit | undefined {
  const symbol = spellInAscii(text);
  if (symbol === '' || symbol.length > LONGEST_SYMBOL) return undefined;
  const [over = '', under, ...rest] = symbol.split('/');
  if (rest.length > 0 || (over === '' && under === undefined)) return undefined;
  const above = over === '' ? [] : readPowers(over);
  const below = under === undefined ? [] : readPowers(under);
  if (above === undefined || below === undefined || above.length + below.length > MOST_ATOMS)
    return undefined;
  return buildUnit(symbol, above, below);
}

/** Replaces the signs of print by the ASCII spelling of files. */
export function spellInAscii(text: string): string {
  return text
    .trim()
    .replace(/[\u00b5\u03bc]/g, 'u')
    .replace(/[\u03a9\u2126]/g, 'ohm')
    .replace(/[\u00b7\u22c5\u00d7]/g, '.')
    .replace(/\u00b2/g, '2')
    .replace(/\u00b3/g, '3')
    .replace(/\u00b0/g, 'deg');
}

/** The atoms and exponents of one side of the stroke: `kg.mm2`. */
function readPowers(text: string): Power[] | undefined {
  const powers: Power[] = [];
  for (const part of text.split('.')) {
    const match = /^([A-Za-z%]+)([23]?)$/.exec(part);
    const atom = SPELLINGS.get(match?.[1] ?? '');
    if (atom === undefined) return undefined;
    powers.push({ atom, exponent: match?.[2] ? Number(match[2]) : 1 });
  }
  return powers;
}

function buildUnit(symbol: string, above: readonly Power[], below: readonly Power[]): Unit | undefined {
  let dimension: Dimension = DIMENSIONS.number;
  let up = 1;
  let down = 1;
  for (const { atom, exponent } of above) {
    dimension = multiplyDimensions(dimension, DIMENSIONS[atom.dimension], exponent);
    up *= atom.up ** exponent;
    down *= atom.down ** exponent;
  }
  for (const { atom, exponent } of below) {
    dimension = multiplyDimensions(dimension, DIMENSIONS[atom.dimension], -exponent);
    up *= atom.down ** exponent;
    down *= atom.up ** exponent;
  }
  const powers = [...above, ...below];
  const scale = powers.find(({ atom }) => atom.zero !== undefined);
  // A point on a temperature scale cannot be multiplied or divided.
  if (scale !== undefined && (powers.length > 1 || below.length > 0 || scale.exponent > 1)) return undefined;
  const unit = { symbol, name: nameUnit(above, below), dimension, ...cancel(up, down) };
  const factor = unit.up / unit.down;
  const atoms = powers.map(({ atom }) => atom);
  const source = [...new Set(atoms.map((atom) => atom.source))].join('; ');
  const definition = defineUnit(symbol, factor, dimension, atoms);
  return { ...unit, factor, zero: scale?.atom.zero ?? 0, definition, source };
}

function nameUnit(above: readonly Power[], below: readonly Power[]): string {
  const under = below.map(nameWithPower).join(' ');
  const over = above.map(nameWithPower).join(' ');
  return under === '' ? over : say`${over} per ${under}`.trim();
}

function nameWithPower({ atom, exponent }: Power): string {
  const name = nameAtom(atom);
  if (exponent === 1) return name;
  if (atom.dimension === 'length') {
    const length = name.toLowerCase();
    return exponent === 2 ? say`square ${length}` : say`cubic ${length}`;
  }
  return exponent === 2 ? say`${name} squared` : say`${name} cubed`;
}

/** `millimetre`: one word, whatever is written large in the language. */
function nameAtom({ name, prefix }: Atom): string {
  return prefix === undefined ? said(name) : said(prefix) + said(name).toLowerCase();
}

function defineUnit(symbol: string, factor: number, dimension: Dimension, atoms: readonly Atom[]): string {
  const si = siSymbol(dimension);
  const parts = [
    ...new Set(atoms.flatMap(({ definition }) => (definition === undefined ? [] : said(definition)))),
  ];
  // The definition of a simple unit says it all; a unit built from others also says what it comes to.
  if (atoms.length === 1 && parts.length === 1 && !symbol.startsWith('/')) return parts.join('');
  if (symbol === si) return say`the SI unit of its kind`;
  const sum = `1 ${symbol} = ${Number(factor.toPrecision(15))} ${si}`;
  return parts.length === 0 ? sum : `${sum} (${parts.join('; ')})`;
}

/** The SI value of so many units. */
export function toSi(number: number, unit: Unit): number {
  return (number * unit.up) / unit.down + unit.zero;
}

/** How many units an SI value is. */
export function fromSi(value: number, unit: Unit): number {
  return ((value - unit.zero) * unit.down) / unit.up;
}

/** How many of the unit with this symbol an SI value is; `1` or nothing is a plain number. NaN if there is no such unit. */
export function toUnit(value: number, symbol: string): number {
  const unit = namedUnit(symbol);
  return unit === undefined ? Number.NaN : fromSi(value, unit);
}

/** The unit with this symbol, where `1` or nothing stands for a plain number. */
export function namedUnit(symbol: string): Unit | undefined {
  return symbol === '' || symbol === '1' ? ONE : findUnit(symbol);
}
