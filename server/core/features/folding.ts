import type { Source } from '../names/mention.ts';
import type { Node } from '../syntax/node.ts';
import { endOfWords, extentOf, rangeOf, type Tree } from '../syntax/tree.ts';

/** A stretch that can be folded away: what its first line shows stays. */
export interface Fold {
  readonly from: number;
  readonly to: number;
  readonly kind: 'group' | 'comment';
}

/** Groups of keys, lists and items that span several lines, and runs of comment lines. */
export function listFolds({ tree }: Pick<Source, 'tree'>): Fold[] {
  const folds: Fold[] = [];
  foldBelow(tree, tree.root, folds);
  return [...folds, ...commentRuns(tree.text)].sort((a, b) => a.from - b.from || b.to - a.to);
}

function foldBelow(tree: Tree, node: Node | undefined, folds: Fold[]): void {
  if (node?.kind === 'map')
    for (const { key, value } of node.pairs) {
      if (value) addFold(tree, rangeOf(tree, key)?.from, extentOf(tree, value).to, folds);
      foldBelow(tree, value, folds);
    }
  if (node?.kind === 'list')
    for (const item of node.items) {
      const extent = item && item.kind !== 'scalar' ? extentOf(tree, item) : undefined;
      if (extent) addFold(tree, extent.from, extent.to, folds);
      foldBelow(tree, item, folds);
    }
}

function addFold({ text }: Tree, from: number | undefined, end: number, folds: Fold[]): void {
  if (from === undefined || !hasLineEnd(text, from, end)) return;
  const to = endOfWords(text, from, end);
  if (hasLineEnd(text, from, to)) folds.push({ from, to, kind: 'group' });
}

function hasLineEnd(text: string, from: number, to: number): boolean {
  const end = text.indexOf('\n', from);
  return end >= 0 && end < to;
}

/** Comments that fill at least two lines, one after the other. */
function commentRuns(text: string): Fold[] {
  return [...text.matchAll(/(?:^[ \t]*#.*(?:\r?\n|$)){2,}/gm)].map(({ index, 0: run }) => ({
    from: index,
    to: index + run.trimEnd().length,
    kind: 'comment',
  }));
}
