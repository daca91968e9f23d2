import { z } from 'zod';
import { CIRCUIT_KINDS } from '../../schemas/index.ts';
import { leaves } from '../../schemas/leaf.ts';
import { kinds } from '../../schemas/section.ts';
import type {
  EitherShape,
  EntriesShape,
  Key,
  KindsShape,
  ListShape,
  MapShape,
  Shape,
} from '../../server/core/shape/shape.ts';

/**
 * Compiles a schema to a shape.
 * @throws Error for a schema that the format does not use, so that a new kind of schema cannot be overlooked
 */
export function compileShape(schema: z.core.$ZodType): Shape {
  const doc = docOf(schema);
  const leaf = leaves.get(schema as z.ZodType);
  if (leaf) return { kind: 'leaf', leaf: { ...leaf }, doc };
  const family = kinds.get(schema as z.ZodType);
  if (family && schema instanceof z.ZodUnion) return compileKinds(schema, family.of, doc);
  if (schema instanceof z.ZodOptional) return compileShape(schema.def.innerType);
  if (schema instanceof z.ZodObject) return compileMap(schema, doc);
  if (schema instanceof z.ZodRecord) return compileEntries(schema, doc);
  if (schema instanceof z.ZodTuple || schema instanceof z.ZodArray) return compileList(schema, doc);
  if (schema instanceof z.ZodUnion) return compileEither(schema, doc);
  throw new Error(`no shape for a schema of the type ${schema._zod.def.type}`);
}

function docOf(schema: z.core.$ZodType): string {
  const inner = schema instanceof z.ZodOptional ? schema.def.innerType : schema;
  return z.globalRegistry.get(inner)?.description ?? '';
}

function compileMap(schema: z.ZodObject, doc: string): MapShape {
  const keys = Object.entries(schema.shape).map(([name, value]): [string, Key] => [
    name,
    { name, shape: compileShape(value), required: !(value instanceof z.ZodOptional), doc: docOf(value) },
  ]);
  return { kind: 'map', keys: new Map(keys), doc };
}

/** Each branch of such a union has one key of its own that it needs: that key names the kind. */
function compileKinds(schema: z.ZodUnion, of: string, doc: string): KindsShape {
  const compiled = schema.def.options.map((option): [string, MapShape] => {
    const shape = compileShape(option);
    const keys = shape.kind === 'map' ? [...shape.keys.values()].map(namePlaces) : [];
    const [own, another] = keys.filter((key) => key.required);
    if (!own || another) throw new Error(`a kind of ${of} needs exactly one key`);
    return [own.name, { kind: 'map', keys: new Map(keys.map((key) => [key.name, key])), doc: shape.doc }];
  });
  return { kind: 'kinds', of, kinds: new Map(compiled), doc };
}

/** The terminals of a circuit's kind have names of their own: plus and minus, out and return. */
function namePlaces(key: Key): Key {
  const places = CIRCUIT_KINDS.get(key.name)?.terminals;
  if (!places || key.shape.kind !== 'list' || key.shape.places.length === 0) return key;
  return { ...key, shape: { ...key.shape, places } };
}

function compileEntries(schema: z.ZodRecord, doc: string): EntriesShape {
  const checks = schema.def.keyType._zod.def.checks ?? [];
  const name = checks.find((check) => check instanceof z.core.$ZodCheckRegex)?._zod.def.pattern;
  if (!name) throw new Error('the names of entries need a pattern');
  return { kind: 'entries', value: compileShape(schema.def.valueType), name, doc };
}

function compileList(schema: z.ZodTuple | z.ZodArray, doc: string): ListShape {
  if (schema instanceof z.ZodArray) {
    const least = schema.def.checks?.find((check) => check instanceof z.core.$ZodCheckMinLength);
    const item = compileShape(schema.def.element);
    return { kind: 'list', item, places: [], least: least?._zod.def.minimum ?? 0, doc };
  }
  const [first] = schema.def.items;
  if (!first) throw new Error('a list with fixed places needs items');
  // All places of a circuit take a terminal; which one it is, its place says.
  const item = { ...compileShape(first), doc: '' };
  const places = schema.def.items.map((_, index) => String(index + 1));
  return { kind: 'list', item, places, least: places.length, doc };
}

function compileEither(schema: z.ZodUnion, doc: string): EitherShape {
  return { kind: 'either', branches: schema.def.options.map(compileShape), doc };
}
