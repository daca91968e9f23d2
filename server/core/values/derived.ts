import { said } from '../language/say.ts';
import { isSameMap } from '../reuse/same.ts';
import type { Span } from '../syntax/node.ts';
import { formatNumber, toUnit } from '../units/index.ts';
import type { FileId } from '../world.ts';

/** A figure that a formula uses: another derived value (it has an address), or one that was written down (it has a place). */
export interface Input {
  /** As formulas call it: English, or already said where names of the machine are in it. `said` says it. */
  readonly name: string;
  /** In SI units, so that formulas never convert. Angles in rad. */
  readonly value: number;
  /** As the person wrote it or would read it, e.g. `5 mm`. */
  readonly shown: string;
  readonly address?: string;
  /** The derived value that has this address. */
  readonly of?: Derived;
  readonly file?: FileId;
  readonly at?: Span;
}

/**
 * A computed number with everything that a person may ask of it. Hover, inline numbers, summary, report and `explain`
 * print this one object, so no two of them can disagree.
 */
export interface Derived {
  readonly address: string;
  /** SI, unrounded. */
  readonly si: number;
  /** In `unit`, unrounded. */
  readonly value: number;
  readonly unit: string;
  /** The unit in which people see it, where that is another one: inches on an axis that is written in inches. */
  readonly shownIn?: string;
  /** With its unit; for a setting that takes words, the word. */
  readonly shown: string;
  /** The formula in words: `steps per turn × microsteps`. */
  readonly formula: string;
  /** The formula with this machine's figures: `200 × 8 = 1600`. */
  readonly working: string;
  readonly inputs: readonly Input[];
  /** Where the formula comes from: a definition, a published source, or common practice. */
  readonly source: string;
  /** For values that are the least of several: the name of the one that binds, in English; `said` says it. */
  readonly limit?: string;
  /** For settings that take words: the word. The value is then its place among the choices, from 0. */
  readonly word?: string;
  /** For settings that cannot hit what follows: how the value was rounded, as `raised to steps of 100 ns`. */
  readonly rounding?: string;
  /** For settings whose span ends before what follows: what that is, in SI units. */
  readonly beyond?: number;
}

/** A value that cannot be computed yet, and what is missing for it. */
export interface Missing {
  readonly address: string;
  readonly needs: string;
  /** True where nothing that could be written down is lacking: there is nothing to compute as things stand. */
  readonly moot?: boolean;
}

export interface Recipe {
  readonly address: string;
  readonly unit: string;
  readonly shownIn?: string;
  /** Inputs stand in braces: `{steps per turn} × {microsteps}`. */
  readonly formula: string;
  readonly inputs: readonly Input[];
  /** In SI units. */
  readonly si: number;
  readonly source: string;
  readonly limit?: string;
  readonly word?: string;
  readonly rounding?: string;
  readonly beyond?: number;
}

/** Works a recipe out. */
export function derive(recipe: Recipe): Derived {
  return new WorkedOut(recipe);
}

/**
 * The same template gives the formula in words and the working in figures. They are written when somebody reads them,
 * since most values are only compared and built on; a class, because getters of thousands of plain objects cost more.
 */
class WorkedOut implements Derived {
  readonly address: string;
  readonly si: number;
  readonly value: number;
  readonly unit: string;
  readonly inputs: readonly Input[];
  readonly source: string;
  declare readonly shownIn?: string;
  declare readonly limit?: string;
  declare readonly word?: string;
  declare readonly rounding?: string;
  declare readonly beyond?: number;
  readonly #template: string;
  #shown: string | undefined;
  #formula: string | undefined;
  #working: string | undefined;

  constructor({
    address,
    si,
    unit,
    shownIn,
    inputs,
    source,
    formula,
    limit,
    word,
    rounding,
    beyond,
  }: Recipe) {
    this.address = address;
    this.si = si;
    this.value = toUnit(si, unit);
    this.unit = unit;
    this.inputs = inputs;
    this.source = said(source);
    this.#template = formula;
    if (shownIn !== undefined) this.shownIn = shownIn;
    if (limit !== undefined) this.limit = limit;
    if (word !== undefined) this.word = word;
    if (rounding !== undefined) this.rounding = rounding;
    if (beyond !== undefined) this.beyond = beyond;
  }

  /**
   * Whether another value says the same in every respect, of the same places and of the same values.
   * @param stays whether the value that an input uses says the same as before, where it is another object
   */
  isAs(other: Derived | undefined, stays: (input: Input) => boolean): boolean {
    return (
      other instanceof WorkedOut &&
      Object.is(this.si, other.si) &&
      this.address === other.address &&
      this.unit === other.unit &&
      this.shownIn === other.shownIn &&
      this.#template === other.#template &&
      this.source === other.source &&
      this.limit === other.limit &&
      this.word === other.word &&
      this.rounding === other.rounding &&
      this.beyond === other.beyond &&
      this.inputs.length === other.inputs.length &&
      this.inputs.every((input, place) => isSameInput(input, other.inputs[place], stays))
    );
  }

  get shown(): string {
    this.#shown ??= this.word ?? showIn(valueShown(this), unitShown(this));
    return this.#shown;
  }

  get formula(): string {
    this.#formula ??= fill(this.#template.replace(DIVIDED_BY_PRODUCT, '/ ({$1})'), said);
    return this.#formula;
  }

  get working(): string {
    this.#working ??= workOut(this.#template, this.inputs, this.shown);
    return this.#working;
  }
}

/**
 * Whether two figures say the same, of the same place or of the same value.
 * @param stays whether the value that the first uses says the same as before, where it is another object
 */
export function isSameInput(
  a: Input,
  b: Input | undefined,
  stays: (input: Input) => boolean = () => false,
): boolean {
  return (
    b !== undefined &&
    a.name === b.name &&
    Object.is(a.value, b.value) &&
    a.address === b.address &&
    (a.of === b.of || stays(a)) &&
    a.file === b.file &&
    a.at === b.at &&
    (a.of !== undefined || a.shown === b.shown)
  );
}

/** The values of before in the place of those that say the same, so that what rests on them need not be worked out anew. */
export function keepWhereSame(
  before: ReadonlyMap<string, Derived>,
  now: ReadonlyMap<string, Derived>,
): ReadonlyMap<string, Derived> {
  const kept = new Map<string, Derived>();
  // A value may rest on one before it that was worked out anew with it, and says what it said.
  const stays = ({ address = '', of }: Input): boolean =>
    of !== undefined &&
    now.get(address) === of &&
    kept.has(address) &&
    kept.get(address) === before.get(address);
  for (const [address, value] of now) {
    const known = before.get(address);
    const isKnown = known === value || (value instanceof WorkedOut && value.isAs(known, stays));
    kept.set(address, isKnown && known ? known : value);
  }
  return isSameMap(before, kept) ? before : kept;
}

/** An input whose name is itself a product or a quotient: dividing by it needs brackets. Its figure brings its own. */
const DIVIDED_BY_PRODUCT = /\/ \{([^}]* [×/] [^}]*)\}/g;

function workOut(formula: string, inputs: readonly Input[], shown: string): string {
  if (isTakenOver(formula)) return shown;
  const figures = new Map(inputs.map((input) => [input.name, input.shown]));
  return `${fill(formula, (name) => figures.get(name) ?? said(name))} = ${shown}`;
}

function fill(formula: string, say: (name: string) => string): string {
  return formula.replace(/\{([^}]*)\}([²⁴]?)/g, (_, name: string, power: string) => raise(say(name), power));
}

/** `13 mm` to the fourth is `(13 mm)⁴`, and not `13 mm⁴`. */
function raise(text: string, power: string): string {
  return power !== '' && text.includes(' ') && !text.startsWith('(')
    ? `(${text})${power}`
    : `${text}${power}`;
}

/** True for a formula that is one figure alone: its working is that figure, not an equation. */
function isTakenOver(formula: string): boolean {
  return /^\{[^}]*\}$/.test(formula);
}

/** Feeds, rates and the like as a headline shows them: the limit matters there, not its fifth digit. */
export function showBriefly(derived: Derived): string {
  const [value, unit] = [valueShown(derived), unitShown(derived)];
  return unit === '1' ? formatNumber(value, 4) : `${formatNumber(value, 4)} ${unit}`;
}

/** The unit in which people see a value. */
export const unitShown = ({ unit, shownIn }: Derived): string => shownIn ?? unit;
const valueShown = ({ si, value, shownIn }: Derived): number =>
  shownIn === undefined ? value : toUnit(si, shownIn);

/** What an input sees, to a tenth: finer is nobody's concern at a terminal. */
export function showLevel({ value, unit }: Derived): string {
  return `${Math.abs(value) < 0.05 ? 0 : formatNumber(Number(value.toFixed(1)))} ${unit}`;
}

/** A number and its unit as a person reads them; the unit `1` is not written. */
export function showIn(value: number, unit: string): string {
  return unit === '1' ? formatNumber(value) : `${formatNumber(value)} ${unit}`;
}

/** All values of one machine by address, and what could not be computed. */
export interface Values {
  readonly byAddress: ReadonlyMap<string, Derived>;
  readonly missing: ReadonlyMap<string, Missing>;
}

/** Gathers values. */
export function gatherValues(
  byAddress: Values['byAddress'] = new Map(),
  missing: Values['missing'] = new Map(),
): Values {
  return { byAddress, missing };
}
