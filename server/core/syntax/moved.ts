import type { Block, Node } from './node.ts';
import { forgetBlock, parseBlock } from './yaml-block.ts';

/**
 * A block that speaks for another one: the same words in the same order, with other blanks and comments between them. Its
 * nodes stay, and with them all that was worked out of them; only where they stand is another.
 */
export interface Moved {
  /** The block as it is written now. */
  readonly written: Block;
  /** Where words, maps and lists begin and end in the block that speaks, ascending, and in the one that is written. */
  readonly from: readonly number[];
  readonly to: readonly number[];
}

/** Where an offset of the block that speaks stands in the one that is written. */
export function offsetIn({ from, to }: Moved, offset: number): number {
  let low = 0;
  let high = from.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((from[middle] as number) <= offset) low = middle;
    else high = middle - 1;
  }
  const there = (to[low] as number) + offset - (from[low] as number);
  return Math.min(there, to[low + 1] ?? there);
}

/** How a block speaks for one that was written in its place; undefined where anything but blanks and comments differs. */
export function moveInto(speaker: Block, written: Block): Moved | undefined {
  const before = parseBlock(speaker);
  const now = parseBlock(written);
  const isPlain = [before, now].every(
    ({ problems, anchors }) => problems.length === 0 && anchors.length === 0,
  );
  if (!before.root || !now.root || !isPlain) return undefined;
  const places = new Map<number, number>();
  if (!gatherPlaces(before.root, now.root, places)) return undefined;
  if (!places.has(0)) places.set(0, 0);
  if (!places.has(speaker.text.length)) places.set(speaker.text.length, written.text.length);
  const inOrder = [...places].sort(([a], [b]) => a - b);
  const from = inOrder.map(([place]) => place);
  const to = inOrder.map(([, place]) => place);
  if (!to.every((place, index) => place >= (to[index - 1] ?? 0))) return undefined;
  forgetBlock(written);
  return { written, from, to };
}

/** Notes where each node of a tree stands in another one. @returns false where the two do not say the same */
function gatherPlaces(before: Node | undefined, now: Node | undefined, places: Map<number, number>): boolean {
  if (!before || !now) return before === now;
  const note = (from: number, to: number): boolean => {
    const known = places.get(from);
    places.set(from, to);
    return known === undefined || known === to;
  };
  if (!note(before.from, now.from) || !note(before.to, now.to)) return false;
  const each = (some: readonly (Node | undefined)[], others: readonly (Node | undefined)[]): boolean =>
    some.length === others.length && some.every((node, index) => gatherPlaces(node, others[index], places));
  if (before.kind === 'scalar')
    return now.kind === 'scalar' && before.style === now.style && wordsOf(before) === wordsOf(now);
  if (before.kind === 'list')
    return now.kind === 'list' && before.flow === now.flow && each(before.items, now.items);
  if (now.kind !== 'map' || before.flow !== now.flow) return false;
  const keysAndValues = (map: typeof now) => map.pairs.flatMap(({ key, value }) => [key, value]);
  return each(keysAndValues(before), keysAndValues(now));
}

/** A node letter by letter, with its quotes. */
const wordsOf = ({ block, from, to }: Node): string => block.text.slice(from, to);
