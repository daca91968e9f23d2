import type { Node } from '../syntax/node.ts';
import { extentOf, rangeOf, type Tree } from '../syntax/tree.ts';
import { isBroken } from '../syntax/yaml-block.ts';

/**
 * What a line is to the formatter. `entry` begins a key or an item; `inside` goes on with what an earlier line opened
 * (a flow collection or a text over several lines), and only moves with it; `frozen` is not touched at all.
 */
export type LineKind = 'blank' | 'comment' | 'entry' | 'inside' | 'frozen';

/** A line of a text, without its line end. */
export interface Line {
  readonly kind: LineKind;
  readonly from: number;
  readonly text: string;
  readonly indent: number;
  /** An entry whose value goes on in the next line. */
  readonly opens: boolean;
}

/** Cuts a text into lines and says what each is. A byte order mark belongs to no line. */
export function readLines(tree: Tree): Line[] {
  const spans = lineSpans(tree.text);
  const kinds = new Map<number, 'inside' | 'frozen'>();
  const openers = new Set<number>();
  const mark = (from: number, to: number, kind: 'inside' | 'frozen') => {
    for (let line = lineAt(spans, from); line <= lineAt(spans, to); line++) kinds.set(line, kind);
  };
  for (const node of nodesOf(tree.root)) {
    const range = spreadOf(tree, node);
    if (!range || lineAt(spans, range.from) === lineAt(spans, range.to)) continue;
    const first = lineAt(spans, range.from);
    openers.add(first);
    for (let line = first + 1; line <= lineAt(spans, range.to); line++) kinds.set(line, 'inside');
  }
  for (const block of tree.blocks) {
    const from = tree.starts.get(block) ?? 0;
    if (isBroken(block)) mark(from, Math.max(from, from + block.text.length - 1), 'frozen');
  }
  return spans.map(({ from, to }, index) => {
    const text = tree.text.slice(from, to);
    const indent = /^ */.exec(text)?.[0].length ?? 0;
    const kind = kinds.get(index) ?? kindOf(text);
    return { kind, from, text, indent, opens: openers.has(index) };
  });
}

function kindOf(text: string): LineKind {
  const start = text.trimStart();
  if (start === '') return 'blank';
  if (start.startsWith('#')) return 'comment';
  // Directives, document marks, explicit keys and tabs are too rare to be worth a rule.
  return /^ *\t|^%|^(?:---|\.\.\.)(?:\s|$)|^ *\?(?:\s|$)/.test(text) ? 'frozen' : 'entry';
}

function lineSpans(text: string): { from: number; to: number }[] {
  const spans: { from: number; to: number }[] = [];
  let from = text.startsWith('\uFEFF') ? 1 : 0;
  for (const { index, 0: end } of text.matchAll(/\r\n|\r|\n/g)) {
    spans.push({ from, to: index });
    from = index + end.length;
  }
  if (from < text.length) spans.push({ from, to: text.length });
  return spans;
}

function lineAt(spans: readonly { from: number }[], offset: number): number {
  let low = 0;
  let high = spans.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((spans[middle]?.from ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Where a flow collection or a scalar stands, without the line end that closes a block scalar. */
function spreadOf(tree: Tree, node: Node): { from: number; to: number } | undefined {
  if (node.kind !== 'scalar' && !node.flow) return undefined;
  const range = rangeOf(tree, node);
  if (!range) return undefined;
  const to = node.kind === 'scalar' ? range.to : Math.max(range.to, extentOf(tree, node).to);
  return { from: range.from, to: Math.max(range.from, to - 1) };
}

function* nodesOf(node: Node | undefined): Generator<Node> {
  if (!node) return;
  yield node;
  if (node.kind === 'list') for (const item of node.items) yield* nodesOf(item);
  if (node.kind === 'map') {
    for (const { key, value } of node.pairs) {
      yield key;
      yield* nodesOf(value);
    }
  }
}
