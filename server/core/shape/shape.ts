import type { Leaf } from '../../../schemas/index.ts';

/**
 * What a definition may say, as the checker walks it. Shapes are compiled from the zod schemas when the project is
 * built (see .project/generate-shapes.ts), so that neither a keystroke nor the start of the program waits for zod,
 * and our messages never carry its words.
 */
export type Shape = MapShape | KindsShape | EntriesShape | ListShape | LeafShape | EitherShape;

/** One key of a map, with what the reference says about it. */
export interface Key {
  readonly name: string;
  readonly shape: Shape;
  readonly required: boolean;
  readonly doc: string;
}

/** A map with keys of the format. */
export interface MapShape {
  readonly kind: 'map';
  readonly keys: ReadonlyMap<string, Key>;
  readonly doc: string;
}

/** A map that is of exactly one kind, told by which of the kinds' keys it has: a circuit. */
export interface KindsShape {
  readonly kind: 'kinds';
  /** What there are kinds of, for messages: `circuit`. */
  readonly of: string;
  readonly kinds: ReadonlyMap<string, MapShape>;
  readonly doc: string;
}

/** A map whose keys are names of the user's own. */
export interface EntriesShape {
  readonly kind: 'entries';
  readonly value: Shape;
  /** What a name looks like. */
  readonly name: RegExp;
  readonly doc: string;
}

export interface ListShape {
  readonly kind: 'list';
  readonly item: Shape;
  /** What stands where, for a list with a fixed place for each; else empty. */
  readonly places: readonly string[];
  readonly least: number;
  readonly doc: string;
}

export interface LeafShape {
  readonly kind: 'leaf';
  readonly leaf: Leaf;
  readonly doc: string;
}

export interface EitherShape {
  readonly kind: 'either';
  readonly branches: readonly Shape[];
  readonly doc: string;
}
