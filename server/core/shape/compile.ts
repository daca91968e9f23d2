import { z } from 'zod';
import { CIRCUIT_KINDS, kinds, leaves } from '../../../schemas/index.ts';
import type { EitherShape, EntriesShape, Key, KindsShape, ListShape, MapShape, Shape } from './shape.ts';

/**
 * Compiles a schema to a shape. Done once for each schema when the program starts.
 * @throws Error for a schema that the format does not use, so that a new kind of schema cannot be overlooked
 */
export function compileShape(schema: z.core.$ZodType, path: readonly string[] = []): Shape {
  const doc = docOf(schema);
  const leaf = leaves.get(schema as z.ZodType);
  if (leaf) return { kind: 'leaf', leaf, doc };
  const family = kinds.get(schema as z.ZodType);
  if (family && schema instanceof z.ZodUnion) return compileKinds(schema, family.of, path, doc);
  if (schema instanceof z.ZodOptional) return compileShape(schema.def.innerType, path);
  if (schema instanceof z.ZodObject) return compileMap(schema, path, doc);
  if (schema instanceof z.ZodRecord) return compileEntries(schema, path, doc);
  if (schema instanceof z.ZodTuple || schema instanceof z.ZodArray) return compileList(schema, path, doc);
  if (schema instanceof z.ZodUnion) return compileEither(schema, path, doc);
  throw new Error(`no shape for a ${schema._zod.def.type} at ${path.join('.')}`);
}

function docOf(schema: z.core.$ZodType): string {
  const inner = schema instanceof z.ZodOptional ? schema.def.innerType : schema;
  return z.globalRegistry.get(inner)?.description ?? '';
}

function compileMap(schema: z.ZodObject, path: readonly string[], doc: string): MapShape {
  const keys = new Map<string, Key>();
  for (const [name, value] of Object.entries(schema.shape)) {
    keys.set(name, {
      name,
      shape: compileShape(value, [...path, name]),
      required: !(value instanceof z.ZodOptional),
      doc: docOf(value),
    });
  }
  return { kind: 'map', keys, path, doc };
}

/** Each branch of such a union has one key of its own that it needs: that key names the kind. */
function compileKinds(schema: z.ZodUnion, of: string, path: readonly string[], doc: string): KindsShape {
  const compiled = schema.def.options.flatMap((option) => {
    const shape = compileShape(option, path);
    if (shape.kind !== 'map') return [];
    const keys = new Map([...shape.keys].map(([name, key]) => [name, namePlaces(key)]));
    return [...keys.values()].flatMap((key): [string, MapShape][] =>
      key.required ? [[key.name, { ...shape, keys }]] : [],
    );
  });
  return { kind: 'kinds', of, kinds: new Map(compiled), path, doc };
}

/** The terminals of a circuit's kind have names of their own: plus and minus, out and return. */
function namePlaces(key: Key): Key {
  const places = CIRCUIT_KINDS.get(key.name)?.terminals;
  if (!places || key.shape.kind !== 'list' || key.shape.places.length === 0) return key;
  return { ...key, shape: { ...key.shape, places } };
}

function compileEntries(schema: z.ZodRecord, path: readonly string[], doc: string): EntriesShape {
  const value = compileShape(schema.def.valueType, [...path, '*']);
  const checks = schema.def.keyType._zod.def.checks ?? [];
  const name = checks.find((check) => check instanceof z.core.$ZodCheckRegex)?._zod.def.pattern;
  if (!name) throw new Error(`no pattern for the names at ${path.join('.')}`);
  return { kind: 'entries', value, name, doc };
}

function compileList(schema: z.ZodTuple | z.ZodArray, path: readonly string[], doc: string): ListShape {
  const first = schema instanceof z.ZodTuple ? schema.def.items[0] : schema.def.element;
  if (!first) throw new Error(`no items at ${path.join('.')}`);
  const item = compileShape(first, [...path, '*']);
  if (schema instanceof z.ZodArray) {
    const least = schema.def.checks?.find((check) => check instanceof z.core.$ZodCheckMinLength);
    return { kind: 'list', item, places: [], least: least?._zod.def.minimum ?? 0, doc };
  }
  const places = schema.def.items.map((_, index) => String(index + 1));
  return { kind: 'list', item, places, least: places.length, doc };
}

function compileEither(schema: z.ZodUnion, path: readonly string[], doc: string): EitherShape {
  return { kind: 'either', branches: schema.def.options.map((option) => compileShape(option, path)), doc };
}
