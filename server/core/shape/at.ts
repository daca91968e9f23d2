import type { Node } from '../syntax/node.ts';
import { valueUnder } from '../syntax/node.ts';
import { chooseShape } from './branch.ts';
import { childShape } from './fields.ts';
import type { Key, Shape } from './shape.ts';

/** What the format says of a place in a definition. */
export interface ShapeAt {
  /** What may stand there, with unions opened where the text shows which branch is meant. */
  readonly shape: Shape;
  /** The key of the format under which it stands; undefined for a name of the user's own, an item, or the top. */
  readonly key: Key | undefined;
  /** What the reference says about the place. */
  readonly doc: string;
}

/**
 * The shape at a place, or undefined where the format knows nothing of it.
 * @param path the keys and the indexes in lists that lead from the top of the file to the place
 * @param root the tree, which shows of which kind a circuit or an item of the wiring is
 */
export function shapeAlong(
  top: Shape,
  path: readonly (string | number)[],
  root: Node | undefined,
): ShapeAt | undefined {
  let node = root;
  let at: ShapeAt = { shape: open(top, node), key: undefined, doc: top.doc };
  for (const step of path) {
    const next = stepInto(at.shape, step);
    if (!next) return undefined;
    node = nodeUnder(node, step);
    at = { shape: open(next.shape, node), key: next.key, doc: next.key?.doc ?? next.shape.doc };
  }
  return at;
}

function open(shape: Shape, node: Node | undefined): Shape {
  return (node && chooseShape(node, shape)) ?? shape;
}

function stepInto(shape: Shape, step: string | number): { shape: Shape; key: Key | undefined } | undefined {
  if (typeof step === 'number') {
    return shape.kind === 'list' ? { shape: shape.item, key: undefined } : undefined;
  }
  const child = childShape(shape, step);
  return child && { shape: child, key: shape.kind === 'map' ? shape.keys.get(step) : undefined };
}

function nodeUnder(node: Node | undefined, step: string | number): Node | undefined {
  if (typeof step === 'string') return valueUnder(node, step);
  return node?.kind === 'list' ? node.items[step] : undefined;
}
