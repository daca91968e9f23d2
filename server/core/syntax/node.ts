/**
 * The tree of a definition, as the rest of the core sees it: maps, lists and scalars, each knowing its place.
 *
 * A text is cut into blocks (see blocks.ts), and every place is an offset inside its block. A block whose text did
 * not change is the same object in the next version of the tree, wherever it moved to; so everything that was
 * computed from it can be kept, and nothing has to be shifted when a line is inserted above.
 */

/** A stretch of text that was parsed by itself. Identity matters: caches are keyed by the block object. */
export interface Block {
  readonly text: string;
}

/** A place: offsets in UTF-16 units from the start of its block, `to` exclusive. */
export interface Span {
  readonly block: Block;
  readonly from: number;
  readonly to: number;
}

export type ScalarStyle = 'plain' | 'single' | 'double' | 'block';

/**
 * A single value. All values of the format are read from their text, so YAML's own typing (numbers, booleans)
 * is not kept: `Y`, `on`, `012` and `1_000` stay what the user typed.
 */
export interface Scalar extends Span {
  readonly kind: 'scalar';
  /** The text after YAML's quoting and folding. */
  readonly text: string;
  readonly style: ScalarStyle;
  /** Where in the block `text[0]` stands if the text stands there letter by letter; undefined with escapes or folding. */
  readonly textFrom: number | undefined;
}

export interface Pair {
  readonly key: Scalar;
  /** Undefined while nothing has been written after the colon. */
  readonly value: Node | undefined;
}

/** `from` and `to` of a map or list that spans several blocks are those of its first child: see extentOf. */
export interface MapNode extends Span {
  readonly kind: 'map';
  readonly pairs: readonly Pair[];
  readonly flow: boolean;
}

export interface ListNode extends Span {
  readonly kind: 'list';
  readonly items: readonly (Node | undefined)[];
  readonly flow: boolean;
}

export type Node = Scalar | MapNode | ListNode;

/** The pair with this key, or undefined. Keys are unique: a repeated key was reported and dropped by the reader. */
export function pairOf(node: Node | undefined, key: string): Pair | undefined {
  return node?.kind === 'map' ? node.pairs.find((pair) => pair.key.text === key) : undefined;
}

/** The value under this key, or undefined. */
export function valueUnder(node: Node | undefined, key: string): Node | undefined {
  return pairOf(node, key)?.value;
}

/** The text of the scalar under this key, or undefined when there is none or it is a map or list. */
export function textOf(node: Node | undefined, key: string): string | undefined {
  const value = valueUnder(node, key);
  return value?.kind === 'scalar' ? value.text : undefined;
}

/** The place of `text[from..to)` of a scalar; the whole scalar where its text does not stand in the file letter by letter. */
export function spanWithin(scalar: Scalar, from: number, to: number): Span {
  if (scalar.textFrom === undefined) return { block: scalar.block, from: scalar.from, to: scalar.to };
  return {
    block: scalar.block,
    from: scalar.textFrom + from,
    to: scalar.textFrom + to,
  };
}
