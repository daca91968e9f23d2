import { nextLine } from '../findings/common/edits.ts';
import { startOfLine } from '../syntax/lines.ts';
import type { Node, Pair } from '../syntax/node.ts';
import { extentOf, rangeOf, type Tree } from '../syntax/tree.ts';

/** Whole lines, from the start of the first to the start of the one behind them. */
export interface Lines {
  readonly from: number;
  readonly to: number;
}

/** The lines of an entry of a block map; undefined where it shares a line with something else. */
export function linesOfPair(tree: Tree, { key, value }: Pair): Lines | undefined {
  const start = rangeOf(tree, key)?.from;
  if (start === undefined) return undefined;
  const from = startOfLine(tree.text, start);
  if (tree.text.slice(from, start).replace('\uFEFF', '').trim() !== '') return undefined;
  return { from, to: endOfLines(tree, value ?? key) };
}

/** The lines of an item of a block list, its dash included; undefined where it shares a line with something else. */
export function linesOfItem(tree: Tree, item: Node): Lines | undefined {
  const start =
    item.kind === 'map' && item.pairs[0]
      ? Math.min(from(tree, item), from(tree, item.pairs[0].key))
      : from(tree, item);
  const line = startOfLine(tree.text, start);
  if (!/^ *- +$/.test(tree.text.slice(line, start))) return undefined;
  return { from: line, to: endOfLines(tree, item) };
}

/** Behind the last line of a node. A block map ends, for YAML, where the next thing begins, so its last value is asked. */
function endOfLines(tree: Tree, node: Node): number {
  if (node.kind !== 'scalar' && !node.flow) {
    const pair = node.kind === 'map' ? node.pairs.at(-1) : undefined;
    const last =
      node.kind === 'map' ? (pair?.value ?? pair?.key) : node.items.findLast((item) => item !== undefined);
    if (last) return endOfLines(tree, last);
  }
  const { to } = extentOf(tree, node);
  return tree.text[to - 1] === '\n' ? to : nextLine(tree.text, to);
}

const from = (tree: Tree, node: Node) => rangeOf(tree, node)?.from ?? 0;

/** Moves lines to the right or, by a negative number, to the left; blank lines stay blank. */
export function shiftLines(text: string, by: number): string {
  return text.replace(/^ *(?=[^\s])/gm, (blanks) => ' '.repeat(Math.max(0, blanks.length + by)));
}
