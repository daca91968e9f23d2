import type { Source } from '../names/mention.ts';
import { mentionAt } from '../names/name.ts';
import { locate } from '../syntax/locate.ts';
import { type Scalar, spanWithin } from '../syntax/node.ts';
import { endOfWords, extentOf, rangeOf, type Tree } from '../syntax/tree.ts';

export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * The stretches around an offset, each inside the next: a name, the end of a link, a value, its key with it, and so on
 * up to the whole text.
 */
export function listSelections(source: Source, offset: number): Stretch[] {
  const { tree } = source;
  const { steps, scalar } = locate(tree, offset);
  const mention = mentionAt(source, offset);
  const around = [
    mention && rangeOf(tree, mention.at),
    ...(scalar
      ? [wordAt(tree.text, scalar, tree, offset), textOfScalar(tree, scalar), rangeOf(tree, scalar)]
      : []),
    ...steps.toReversed().flatMap((step) => {
      if (step.kind === 'item') return [extentOf(tree, step.item), extentOf(tree, step.list)];
      const { key, value } = step.pair;
      const from = rangeOf(tree, key)?.from ?? 0;
      const pair = { from, to: value ? extentOf(tree, value).to : from + (key.to - key.from) };
      return [value && extentOf(tree, value), pair, extentOf(tree, step.map)];
    }),
  ].map((stretch) => stretch && withoutBlankEnd(tree.text, stretch));
  return growing([...around, { from: 0, to: tree.text.length }], offset);
}

/** A group in the tree reaches as far as the next one; its last line is what people see. */
function withoutBlankEnd(text: string, { from, to }: Stretch): Stretch {
  return { from, to: endOfWords(text, from, to) };
}

/** What stands between blanks and commas, within its value. */
function wordAt(text: string, scalar: Scalar, tree: Tree, offset: number): Stretch | undefined {
  const within = textOfScalar(tree, scalar);
  if (!within) return undefined;
  let [from, to] = [offset, offset];
  while (from > within.from && /[^\s,]/.test(text[from - 1] ?? '')) from--;
  while (to < within.to && /[^\s,]/.test(text[to] ?? '')) to++;
  return { from, to };
}

/** A scalar without its quotes. */
function textOfScalar(tree: Tree, scalar: Scalar): Stretch | undefined {
  return rangeOf(tree, spanWithin(scalar, 0, scalar.text.length));
}

/** Those that hold the offset and are larger than the one before. */
function growing(stretches: readonly (Stretch | undefined)[], offset: number): Stretch[] {
  const kept: Stretch[] = [];
  for (const next of stretches) {
    if (!next || next.from > offset || next.to < offset || next.from === next.to) continue;
    const last = kept.at(-1);
    const grows =
      !last || (next.from <= last.from && next.to >= last.to && next.to - next.from > last.to - last.from);
    if (grows) kept.push({ from: next.from, to: next.to });
  }
  return kept;
}
