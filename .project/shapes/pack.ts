import type { Packed, PackedKey } from '../../server/core/shape/packed.ts';
import type { Key, Shape } from '../../server/core/shape/shape.ts';

/** Gathers shapes in a table in which equal ones stand once. */
export interface Packer {
  readonly table: readonly Packed[];
  /** Adds a shape with all below it; gives its row. */
  readonly add: (shape: Shape) => number;
}

/** An empty table. */
export function createPacker(): Packer {
  const table: Packed[] = [];
  const rows = new Map<string, number>();
  const add = (shape: Shape): number => {
    const packed = pack(shape, add);
    const text = JSON.stringify(packed);
    const row = rows.get(text) ?? table.push(packed) - 1;
    rows.set(text, row);
    return row;
  };
  return { table, add };
}

function pack(shape: Shape, add: (shape: Shape) => number): Packed {
  const { doc } = shape;
  switch (shape.kind) {
    case 'leaf':
      return shape;
    case 'map':
      return { kind: 'map', keys: [...shape.keys.values()].map((key) => packKey(key, add)), doc };
    case 'kinds': {
      const kinds = [...shape.kinds].map(([kind, map]) => [kind, add(map)] as const);
      return { kind: 'kinds', of: shape.of, kinds, doc };
    }
    case 'entries':
      return { kind: 'entries', value: add(shape.value), name: shape.name.source, doc };
    case 'list':
      return { ...shape, item: add(shape.item) };
    case 'either':
      return { kind: 'either', branches: shape.branches.map(add), doc };
  }
}

function packKey({ name, shape, required, doc }: Key, add: (shape: Shape) => number): PackedKey {
  const key = [name, add(shape), required ? 1 : 0] as const;
  return doc === shape.doc ? key : [...key, doc];
}
