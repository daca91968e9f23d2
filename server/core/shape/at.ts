import type { Step } from '../syntax/locate.ts';
import type { Node } from '../syntax/node.ts';
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
 * @param steps the same way through the tree, as far as the text goes: they show of which kind a circuit is
 */
export function shapeAlong(
  top: Shape,
  path: readonly (string | number)[],
  steps: readonly Step[],
): ShapeAt | undefined {
  let at: ShapeAt = { shape: top, key: undefined, doc: top.doc };
  for (const [index, name] of path.entries()) {
    const next = stepInto(open(at.shape, containerOf(steps[index])), name);
    if (!next) return undefined;
    at = { shape: next.shape, key: next.key, doc: next.key?.doc ?? next.shape.doc };
  }
  return { ...at, shape: open(at.shape, targetOf(steps[path.length - 1])) };
}

function open(shape: Shape, node: Node | undefined): Shape {
  return (node && chooseShape(node, shape)) ?? shape;
}

function containerOf(step: Step | undefined): Node | undefined {
  return step?.kind === 'pair' ? step.map : step?.list;
}

function targetOf(step: Step | undefined): Node | undefined {
  return step?.kind === 'pair' ? step.pair.value : step?.item;
}

function stepInto(shape: Shape, name: string | number): { shape: Shape; key: Key | undefined } | undefined {
  if (typeof name === 'number') {
    return shape.kind === 'list' ? { shape: shape.item, key: undefined } : undefined;
  }
  const child = childShape(shape, name);
  return child && { shape: child, key: shape.kind === 'map' ? shape.keys.get(name) : undefined };
}
