import type { Node } from '../../../server/core/syntax/node.ts';
import { rangeOf, type Tree } from '../../../server/core/syntax/tree.ts';

/** A tree as plain data, with the absolute place of each scalar: for comparing trees that were cut differently. */
export function plainTree(tree: Pick<Tree, 'root' | 'blocks' | 'starts' | 'moved'>): unknown {
  const plain = (node: Node | undefined): unknown => {
    if (!node) return null;
    if (node.kind === 'scalar') return { text: node.text, style: node.style, ...rangeOf(tree, node) };
    if (node.kind === 'list') return node.items.map(plain);
    return node.pairs.map(({ key, value }) => [plain(key), plain(value)]);
  };
  return plain(tree.root);
}
