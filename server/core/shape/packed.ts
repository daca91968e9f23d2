import type { Leaf } from '../../../schemas/index.ts';
import type { Key, MapShape, Shape } from './shape.ts';

/**
 * Shapes as a table of plain values, in which equal ones stand once. A shape below another is named by its row, which
 * always comes earlier.
 */
export type Packed =
  | { readonly kind: 'leaf'; readonly leaf: Leaf; readonly doc: string }
  | { readonly kind: 'map'; readonly keys: readonly PackedKey[]; readonly doc: string }
  | {
      readonly kind: 'kinds';
      readonly of: string;
      readonly kinds: readonly (readonly [kind: string, row: number])[];
      readonly doc: string;
    }
  | { readonly kind: 'entries'; readonly value: number; readonly name: string; readonly doc: string }
  | {
      readonly kind: 'list';
      readonly item: number;
      readonly places: readonly string[];
      readonly least: number;
      readonly doc: string;
    }
  | { readonly kind: 'either'; readonly branches: readonly number[]; readonly doc: string };

/** The text of a key is that of the shape below it, unless it has one of its own. */
export type PackedKey = readonly [name: string, row: number, required: 0 | 1, doc?: string];

/** Builds the shapes of a table, row by row. @throws Error for a table that refers to a row it does not have */
export function unpackShapes(table: readonly Packed[]): readonly Shape[] {
  const shapes: Shape[] = [];
  const at = (row: number): Shape => {
    const shape = shapes[row];
    if (!shape) throw new Error(`row ${row} is not there yet`);
    return shape;
  };
  for (const packed of table) shapes.push(unpack(packed, at));
  return shapes;
}

/** The shape of a row that holds a map. */
export function asMap(shape: Shape | undefined): MapShape {
  if (shape?.kind !== 'map') throw new Error(`a map was expected, not ${shape?.kind}`);
  return shape;
}

function unpack(packed: Packed, at: (row: number) => Shape): Shape {
  const { doc } = packed;
  switch (packed.kind) {
    case 'leaf':
      return packed;
    case 'map':
      return { kind: 'map', keys: new Map(packed.keys.map((key) => unpackKey(key, at))), doc };
    case 'kinds': {
      const kinds = packed.kinds.map(([kind, row]): [string, MapShape] => [kind, asMap(at(row))]);
      return { kind: 'kinds', of: packed.of, kinds: new Map(kinds), doc };
    }
    case 'entries':
      return { kind: 'entries', value: at(packed.value), name: new RegExp(packed.name), doc };
    case 'list':
      return { ...packed, item: at(packed.item) };
    case 'either':
      return { kind: 'either', branches: packed.branches.map(at), doc };
  }
}

function unpackKey([name, row, required, doc]: PackedKey, at: (row: number) => Shape): [string, Key] {
  const shape = at(row);
  return [name, { name, shape, required: required === 1, doc: doc ?? shape.doc }];
}
