import type { Leaf } from '../../../schemas/index.ts';
import { type MapNode, type Node, type Span as Place, pairOf, type Scalar } from '../syntax/node.ts';
import type { Quantity, Ratio, Span, Wire } from '../units/index.ts';
import { chooseShape, isNothing } from './branch.ts';
import { readLeaf } from './leaf.ts';
import type { Mains } from './mains.ts';
import type { Shape } from './shape.ts';

/** A value that was written down, and where. */
export interface Given<T> {
  readonly value: T;
  /** As it was typed. */
  readonly text: string;
  readonly at: Place;
}

/** One entry of a map, read by the shape that its key has. */
export interface Entry {
  readonly key: Scalar;
  readonly value: Node | undefined;
  readonly fields: Fields;
}

/**
 * A map of a definition, read by its shape. What is missing, is of another kind or cannot be understood is undefined:
 * the checker has said why. Every reading is shared with the checker, so nothing is parsed twice.
 */
export interface Fields {
  readonly node: MapNode | undefined;
  readonly quantity: (key: string) => Given<Quantity> | undefined;
  /** Where one value stands for a span, the span begins and ends there. */
  readonly span: (key: string) => Given<Span> | undefined;
  readonly ratio: (key: string) => Given<Ratio> | undefined;
  readonly wire: (key: string) => Given<Wire> | undefined;
  readonly mains: (key: string) => Given<Mains> | undefined;
  readonly count: (key: string) => Given<number> | undefined;
  readonly number: (key: string) => Given<number> | undefined;
  /** True for `yes`. */
  readonly flag: (key: string) => Given<boolean> | undefined;
  /** What was typed, for any key with a single value that could be understood. */
  readonly text: (key: string) => Given<string> | undefined;
  /** The map under a key; one without anything when there is none. */
  readonly child: (key: string) => Fields;
  readonly entries: () => readonly Entry[];
  /** The maps in the list under a key. */
  readonly items: (key: string) => readonly Fields[];
}

const NOTHING = new WeakMap<Shape, Fields>();
const kept = new WeakMap<Node, WeakMap<Shape, Fields>>();

/** The fields of a map; the same object for the same map and shape. */
export function fieldsOf(node: Node | undefined, shape: Shape): Fields {
  const byShape = node ? (kept.get(node) ?? new WeakMap<Shape, Fields>()) : NOTHING;
  if (node) kept.set(node, byShape);
  let fields = byShape.get(shape);
  if (!fields) {
    fields = makeFields(node, shape);
    byShape.set(shape, fields);
  }
  return fields;
}

/** Stands for what the format knows nothing of. */
const UNKNOWN: Shape = { kind: 'map', keys: new Map(), doc: '' };

function makeFields(node: Node | undefined, shape: Shape): Fields {
  const map = node?.kind === 'map' ? node : undefined;
  const opened = map ? chooseShape(map, shape) : undefined;
  const under = (key: string) => pairOf(map, key)?.value;
  const leafAt =
    <T>(kind: Leaf['kind']) =>
    (key: string): Given<T> | undefined =>
      readGiven<T>(under(key), childShape(opened, key), kind);
  return {
    node: map,
    quantity: leafAt('quantity'),
    span: leafAt('span'),
    ratio: leafAt('ratio'),
    wire: leafAt('wire'),
    mains: leafAt('mains'),
    count: leafAt('count'),
    number: leafAt('number'),
    flag: leafAt('yes-no'),
    text: (key) => {
      const given = readGiven(under(key), childShape(opened, key));
      return given && { ...given, value: given.text };
    },
    child: (key) => fieldsOf(under(key), childShape(opened, key) ?? UNKNOWN),
    entries: () =>
      (map?.pairs ?? []).map(({ key, value }) => ({
        key,
        value,
        fields: fieldsOf(value, childShape(opened, key.text) ?? UNKNOWN),
      })),
    items: (key) => itemsOf(under(key), childShape(opened, key)),
  };
}

/** The shape under a key of a map, or undefined where the format knows nothing of it. */
export function childShape(shape: Shape | undefined, key: string): Shape | undefined {
  if (shape?.kind === 'map') return shape.keys.get(key)?.shape;
  return shape?.kind === 'entries' ? shape.value : undefined;
}

function itemsOf(node: Node | undefined, shape: Shape | undefined): readonly Fields[] {
  if (node?.kind !== 'list' || shape?.kind !== 'list') return [];
  return node.items.flatMap((item) => (item?.kind === 'map' ? [fieldsOf(item, shape.item)] : []));
}

function readGiven<T>(
  node: Node | undefined,
  shape: Shape | undefined,
  kind?: Leaf['kind'],
): Given<T> | undefined {
  if (node?.kind !== 'scalar' || shape?.kind !== 'leaf' || isNothing(node)) return undefined;
  if (kind !== undefined && shape.leaf.kind !== kind) return undefined;
  const { value } = readLeaf(node, shape.leaf);
  return value === undefined ? undefined : { value: value as T, text: node.text, at: node };
}
