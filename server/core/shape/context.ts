import type { Node, Scalar, Span } from '../syntax/node.ts';
import type { Shape } from './shape.ts';

/** Where in the file a node stands that is being checked. */
export interface Context {
  /** The shape of the whole file, to say where a misplaced key belongs. */
  readonly top: Shape;
  /** The keys from the top of the file to the node; `*` for a name of the user's own or the item of a list. */
  readonly path: readonly string[];
  /** The key under which the node stands: the place to mark when all of it is to blame. */
  readonly owner: Scalar | undefined;
  /** True for an item of a list, which the list's key does not stand for. */
  readonly item: boolean;
}

/** What to mark when all of a node is to blame: its key rather than the whole of it. */
export function placeOf(node: Node, { owner, item }: Context): Span {
  if (node.kind === 'scalar') return node;
  return (item ? undefined : owner) ?? (node.kind === 'map' ? (node.pairs[0]?.key ?? node) : node);
}
