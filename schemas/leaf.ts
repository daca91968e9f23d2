import { z } from 'zod';
import { AXES, ROLE_TEXTS } from './roles.ts';

/**
 * What a single value of the format may be. Each leaf is a zod schema with a coarse pattern, so that any editor with
 * a JSON Schema helps a little, and carries in the registry below what our own reader needs to know to read it
 * exactly. The descriptions are data only: nothing here parses.
 */
export type Leaf =
  | QuantityLeaf
  | { readonly kind: 'ratio' }
  | { readonly kind: 'wire' }
  | { readonly kind: 'link' }
  /** A terminal of the part itself (`XP`), or one of the machine, with its part before the dot (`panel.XP`). */
  | { readonly kind: 'terminal'; readonly of: 'part' | 'machine' }
  | { readonly kind: 'name'; readonly of: Named }
  | { readonly kind: 'text' }
  | { readonly kind: 'count'; readonly least: number; readonly most: number }
  | { readonly kind: 'number'; readonly least: number; readonly most: number }
  | { readonly kind: 'choice'; readonly choices: Choices }
  | { readonly kind: 'date' }
  | { readonly kind: 'yes-no' }
  | { readonly kind: 'role' }
  | { readonly kind: 'mains' }
  /** What is set on a part. It can be read only with the meaning of its setting: a quantity, a number or a word. */
  | { readonly kind: 'setting-value' };

export interface QuantityLeaf {
  readonly kind: 'quantity' | 'span';
  /** Several where an axis may be linear or rotary. */
  readonly dimension: Dimension | readonly Dimension[];
  /** The units that fit, likeliest first. Others of the same dimension are read as well. */
  readonly units: readonly string[];
  /** The smallest and largest value that a real machine has, both included; of the first dimension. */
  readonly plausible: readonly [least: string, most: string];
}

export type Dimension =
  | 'acceleration'
  | 'angle'
  | 'angular-acceleration'
  | 'angular-speed'
  | 'current'
  | 'force'
  | 'frequency'
  | 'inductance'
  | 'inertia'
  | 'length'
  | 'mass'
  | 'per-angle'
  | 'per-length'
  | 'power'
  | 'resistance'
  | 'share'
  | 'speed'
  | 'time'
  | 'torque'
  | 'voltage';

/** What a name stands for: what it is looked up among. */
export type Named = 'part' | 'sheet' | 'axis' | 'circuit';

/** Each choice with one line of documentation. */
export type Choices = Readonly<Record<string, string>>;

/** Which leaf a schema stands for. */
export const leaves = z.registry<Leaf>();

const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?`;
const UNIT = String.raw` *[^\s\d.,+-].*`;

function register(schema: z.ZodType, leaf: Leaf): z.ZodType {
  leaves.add(schema, leaf);
  return schema;
}

function textLike(pattern: RegExp, leaf: Leaf): z.ZodType {
  return register(z.string().regex(pattern), leaf);
}

/** A number and a unit: `24 V`. */
export function quantity(about: Omit<QuantityLeaf, 'kind'>): z.ZodType {
  return textLike(new RegExp(`^${NUMBER}${UNIT}$`), { kind: 'quantity', ...about });
}

/** Two numbers and a unit, `18..32 V`; one value alone is a span that begins and ends there. */
export function span(about: Omit<QuantityLeaf, 'kind'>): z.ZodType {
  return textLike(new RegExp(`^${NUMBER}(?: *\\.\\. *${NUMBER})?${UNIT}$`), { kind: 'span', ...about });
}

/** Motor turns to driven turns, `3:1`. */
export function ratio(): z.ZodType {
  return textLike(/^\d+(?:\.\d+)? *: *\d+(?:\.\d+)?$/, { kind: 'ratio' });
}

/** A conductor or several: `0.25 mm2 YE`, `20 AWG`, `4 x 0.75 mm2 screened`. */
export function wire(): z.ZodType {
  return textLike(/\d/, { kind: 'wire' });
}

/** From one terminal to one or more others, with a wire colour where wanted. */
export function link(): z.ZodType {
  return textLike(/^[^\s.,]+\.[^\s,]+ *-> *[^\s.,]+\.[^\s,]+(?: *, *[^\s.,]+\.[^\s,]+)*(?: +[A-Z-/]+)?$/, {
    kind: 'link',
  });
}

/** A terminal by the name printed on the part, or with the part's name before a dot. */
export function terminalRef(of: 'part' | 'machine'): z.ZodType {
  if (of === 'machine') return textLike(/^[^\s.,]+\.[^\s,]+$/, { kind: 'terminal', of });
  return register(z.union([z.string().regex(/^[^\s,]+$/), z.number()]), { kind: 'terminal', of });
}

/** The name of something that is defined elsewhere. Parts and circuits may be called by a number. */
export function nameOf(of: Named): z.ZodType {
  if (of === 'axis') return register(z.enum(AXES), { kind: 'name', of });
  if (of === 'sheet') return textLike(/\S/, { kind: 'name', of });
  return register(z.union([z.string().regex(/^[^\s.,]+$/), z.number()]), { kind: 'name', of });
}

/** Free text. A text that looks like a number is one in YAML, so numbers are taken too. */
export function text(): z.ZodType {
  return register(z.union([z.string().regex(/\S/), z.number()]), { kind: 'text' });
}

/** A whole number. */
export function count(least = 0, most = 1_000_000): z.ZodType {
  return register(z.int().min(least).max(most), { kind: 'count', least, most });
}

/** A number without a unit. */
export function number(least: number, most: number): z.ZodType {
  return register(z.number().min(least).max(most), { kind: 'number', least, most });
}

/** One of a few words. */
export function choice(choices: Choices): z.ZodType {
  const schema = z.enum(Object.keys(choices)).meta({ enumDescriptions: Object.values(choices) });
  return register(schema, { kind: 'choice', choices });
}

/** A day in ISO 8601 form, `2026-03-02`. */
export function date(): z.ZodType {
  return textLike(/^\d{4}-\d{2}-\d{2}$/, { kind: 'date' });
}

/** `yes` or `no`, which are words in YAML 1.2. */
export function yesNo(): z.ZodType {
  return register(z.enum(['yes', 'no']), { kind: 'yes-no' });
}

/** What a part uses a circuit for: `pulse X`, `emergency-stop`. */
export function role(): z.ZodType {
  return register(z.enum(ROLE_TEXTS), { kind: 'role' });
}

/** The supply network: `230 V 50 Hz`, `3 x 400 V 50 Hz`. */
export function mainsText(): z.ZodType {
  return textLike(/^(?:[13] *x *)?\d+(?:\.\d+)? *V +\d+(?:\.\d+)? *Hz$/, { kind: 'mains' });
}

/** What is set on a part, as it is shown there; loosely typed, because its meaning decides how it is read. */
export function settingValue(): z.ZodType {
  return register(z.union([z.string().regex(/\S/), z.number()]), { kind: 'setting-value' });
}
