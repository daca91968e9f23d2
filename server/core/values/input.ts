import type { Span } from '../syntax/node.ts';
import type { FileId } from '../world.ts';
import type { Derived, Input } from './derived.ts';

/*
 * Inputs that are put into words when somebody reads them. There are very many, and most are never read: so they are
 * classes, since a getter in each of thousands of plain objects costs several times the memory of the rest of it.
 */

/** A derived value as the input of another one. */
export function inputFrom(derived: Derived, name: string): Input {
  return new OfValue(derived, name);
}

class OfValue implements Input {
  readonly of: Derived;
  readonly name: string;

  constructor(of: Derived, name: string) {
    this.of = of;
    this.name = name;
  }

  get value(): number {
    return this.of.si;
  }

  get shown(): string {
    return this.of.shown;
  }

  get address(): string {
    return this.of.address;
  }
}

/**
 * A figure that is put into words when somebody reads it, from what it is about. Values are kept from version to version,
 * and a function keeps all that stands around the place where it was made: so `show` is to be a function of its module,
 * which has everything from `about`.
 */
export function inputShownLater<A>(
  name: string,
  value: number,
  show: (about: A) => string,
  about: A,
  place: { readonly file?: FileId; readonly at?: Span } = {},
): Input {
  return new ShownLater(name, value, show, about, place);
}

class ShownLater<A> implements Input {
  readonly name: string;
  readonly value: number;
  declare readonly file?: FileId;
  declare readonly at?: Span;
  readonly #show: (about: A) => string;
  readonly #about: A;

  constructor(
    name: string,
    value: number,
    show: (about: A) => string,
    about: A,
    { file, at }: { readonly file?: FileId; readonly at?: Span },
  ) {
    this.name = name;
    this.value = value;
    if (file !== undefined) this.file = file;
    if (at !== undefined) this.at = at;
    this.#show = show;
    this.#about = about;
  }

  get shown(): string {
    return this.#show(this.#about);
  }
}

/** The same figure under another name. */
export function rename(input: Input, name: string): Input {
  if (input instanceof OfValue) return inputFrom(input.of, name);
  return input.of ? { ...input, name } : inputShownLater(name, input.value, shownOf, input, input);
}

const shownOf = ({ shown }: Input): string => shown;

/** What follows from a figure, at its place and with where it comes from. */
export function reckonedFrom(input: Input, value: number, shown: string): Input {
  const { name, file, at, address, of } = input;
  return {
    name,
    value,
    shown,
    ...(file !== undefined && { file }),
    ...(at && { at }),
    ...(address !== undefined && { address }),
    ...(of && { of }),
  };
}
