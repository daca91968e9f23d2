import { say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import { type Keyed, numberKeyed } from '../model/settings.ts';
import type { Fields, Given } from '../shape/fields.ts';
import type { Span } from '../syntax/node.ts';
import type { FileId } from '../world.ts';
import { type Derived, derive, type Input, type Missing, type Recipe } from './derived.ts';
import { inputShownLater } from './input.ts';

/** Gathers derived values while they are worked out, and what is missing for the others. */
export interface Collector {
  readonly derived: readonly Derived[];
  readonly byAddress: ReadonlyMap<string, Derived>;
  readonly missing: readonly Missing[];
  /** Works a recipe out and keeps it. A result that is no number (an impossible input) is kept as missing. */
  readonly add: (recipe: Recipe) => Derived | undefined;
  /** A value that was worked out before. */
  readonly get: (address: string) => Derived | undefined;
  /** Takes over what was worked out before from the same figures. */
  readonly keep: (derived: Iterable<Derived>, missing: Iterable<Missing>) => void;
  /** Notes why a value cannot be computed. */
  readonly lack: (address: string, needs: string) => void;
  /** Notes that there is nothing to compute as things stand, and why: no figure is lacking. */
  readonly pass: (address: string, needs: string) => void;
}

/**
 * An empty collector.
 * @param shownIn the unit in which people see a value, where that is another one than its own
 * @param before values that were worked out elsewhere
 */
export function createCollector(
  shownIn: (recipe: Recipe) => string | undefined = () => undefined,
  before: (address: string) => Derived | undefined = () => undefined,
): Collector {
  const derived: Derived[] = [];
  const byAddress = new Map<string, Derived>();
  const missing: Missing[] = [];
  const lack = (address: string, needs: string) => {
    missing.push({ address, needs });
  };
  return {
    derived,
    byAddress,
    missing,
    lack,
    pass: (address, needs) => {
      missing.push({ address, needs, moot: true });
    },
    get: (address) => byAddress.get(address) ?? before(address),
    keep: (values, lacking) => {
      for (const value of values) {
        derived.push(value);
        byAddress.set(value.address, value);
      }
      missing.push(...lacking);
    },
    add: (recipe) => {
      if (!Number.isFinite(recipe.si)) {
        lack(
          recipe.address,
          say`figures that are possible: ${recipe.inputs.map((input) => `${input.name} ${input.shown}`).join(', ')}`,
        );
        return undefined;
      }
      const unit = shownIn(recipe);
      const value = derive(unit === undefined ? recipe : { ...recipe, shownIn: unit });
      derived.push(value);
      byAddress.set(value.address, value);
      return value;
    },
  };
}

/** Something with a value in SI units: a quantity, or a number that already is one. */
type Valued = { readonly value: number } | number;

/** A figure that was written down, as an input. */
export function inputOf(name: string, given: Given<Valued>, file: FileId): Input {
  const value = typeof given.value === 'number' ? given.value : given.value.value;
  return { name, value, shown: given.text, file, at: given.at };
}

/** A figure of a map by its key, as an input; undefined when it is not there or cannot be read. */
export function figureInput(name: string, fields: Fields, key: string, file: FileId): Input | undefined {
  const given = fields.quantity(key) ?? fields.count(key) ?? fields.number(key);
  return given && inputOf(name, given, file);
}

/** A fact of a part's sheet as an input. */
export function factInput(name: string, part: Part | undefined, key: string): Input | undefined {
  return part?.sheet && figureInput(name, part.sheet.facts, key, part.sheet.file);
}

/** What a setting stands at, as an input; undefined when it is not set or is a word. */
export function keyedInput(name: string, keyed: Keyed | undefined): Input | undefined {
  const value = keyed && numberKeyed(keyed);
  return keyed && value !== undefined
    ? { name, value, shown: keyed.scalar.text, file: keyed.file, at: keyed.scalar }
    : undefined;
}

/** What is missing, in words: the names of those that are not there. */
export function listNeeds(needs: readonly (readonly [there: unknown, name: string])[]): string {
  const names = needs.filter(([there]) => there === undefined).map(([, name]) => name);
  const last = names.at(-1) ?? '';
  return names.length > 1 ? say`${names.slice(0, -1).join(', ')} and ${last}` : last;
}

/**
 * A figure with no place of its own in a text, such as a number that the trade fixes.
 * @param shown as a text, or how to write it when somebody reads it
 * @param place what in the text it follows from, where there is such a place
 */
export function constantInput(
  name: string,
  value: number,
  shown: string | ((value: number) => string),
  place: { readonly file?: FileId; readonly at?: Span } = {},
): Input {
  return typeof shown === 'string'
    ? { name, value, shown, ...place }
    : inputShownLater(name, value, shown, value, place);
}
