import { z } from 'zod';

/** Keys that may be left out. */
export function optional<Keys extends Record<string, z.ZodType>>(keys: Keys) {
  return z.object(keys).partial().shape;
}

/** A map from names of the user's own; a name has no space, dot or comma, because links are written with those. */
export function named<Value extends z.ZodType>(value: Value) {
  return z.record(z.string().regex(/^[^\s.,]+$/), value);
}

/** A map from labels as they are printed on a part or shown on its panel, such as `F0.01`. */
export function labelled<Value extends z.ZodType>(value: Value) {
  return z.record(z.string().regex(/\S/), value);
}

/** Unions in which a map is of exactly one kind, told by which of the kinds' keys it has. */
export const kinds = z.registry<{ readonly of: string }>();
