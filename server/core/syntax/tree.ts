import type { Problem } from '../problem.ts';
import { assemble } from './assemble.ts';
import { cutText } from './blocks.ts';
import { countMarksAgain, hasTooManyMarks } from './marks.ts';
import { type Moved, offsetIn } from './moved.ts';
import type { Block, MapNode, Node, Span } from './node.ts';
import { type Prepared, prepareText, type Stretch } from './prepare.ts';
import { NOTHING_READ, parseTaken, type Read } from './read.ts';
import { placeBlocks, Starts } from './starts.ts';
import { keepWords, takeBlocks } from './take-blocks.ts';
import { hasTooManyLetters, leaveUnread } from './too-long.ts';

/** One version of a text, parsed. Blocks that did not change are shared with the version before. */
export interface Tree {
  readonly text: string;
  readonly root: Node | undefined;
  readonly problems: readonly Problem[];
  /** The blocks as they are written. */
  readonly blocks: readonly Block[];
  /** Where each block starts in the text, those that speak for others among them. */
  readonly starts: Pick<Starts, 'get'>;
  /** The blocks of earlier versions that speak for blocks of this one, since the words are the same. */
  readonly moved: ReadonlyMap<Block, Moved>;
  /** What the next version of the text takes over. */
  readonly read: Read;
}

type Places = Pick<Tree, 'blocks' | 'starts' | 'moved'>;

/**
 * Parses a text. Never throws: what cannot be read is a problem, and the rest is in the tree.
 * @param previous the version before, whose unchanged blocks are used again
 */
export function readTree(text: string, previous?: Tree): Tree {
  if (hasTooManyLetters(text)) return leaveUnread(text);
  const prepared = prepareText(text);
  const past = previous?.read ?? NOTHING_READ;
  const taken = takeBlocks(prepared.text, cutText(prepared.text), past);
  const { blocks, cuts } = taken;
  const marks = countMarksAgain(taken, past.marks);
  if (hasTooManyMarks(marks)) return leaveUnread(text);
  // What preparing the text showed is told of the blocks as they are written.
  const isPlain = prepared.tabs.length === 0 && prepared.conflicts.length === 0;
  const moved = previous && isPlain ? keepWords(taken, previous.moved) : new Map<Block, Moved>();
  const said = parseTaken(taken, moved, isPlain || previous?.moved.size === 0 ? past.said : undefined);
  placeBlocks(taken);
  const places = { blocks, starts: new Starts(blocks, cuts.starts, moved), moved };
  const problems: Problem[] = [];
  const root = assemble(cuts.kinds, said, problems);
  const read = { text: prepared.text, cuts, blocks, said, marks };
  return { text, root, problems: withPreparation(problems, prepared, places), ...places, read };
}

/** Adds what preparing the text showed, and drops the errors that are only its consequences. */
function withPreparation(
  problems: readonly Problem[],
  prepared: Prepared,
  places: Places,
): readonly Problem[] {
  const conflicts = prepared.conflicts.flatMap((stretch) =>
    problemAt(places, stretch, 'yaml/conflict-markers', {}),
  );
  const [firstTab] = prepared.tabs;
  if (!firstTab) return [...problems, ...conflicts];
  const tabbed = new Set(prepared.tabs.map((tab) => blockAt(places, tab.from)));
  const kept = problems.filter((problem) => problem.code !== 'yaml/syntax' || !tabbed.has(problem.at.block));
  const lines = prepared.tabs.length;
  return [...kept, ...conflicts, ...problemAt(places, firstTab, 'yaml/tab-indentation', { lines })];
}

function problemAt(places: Places, stretch: Stretch, code: string, data: Problem['data']): Problem[] {
  const at = spanAt(places, stretch.from, stretch.to);
  return at ? [{ code, at, data }] : [];
}

/** The block that holds an offset of the text, by bisection. An empty text has one too. */
export function blockAt(tree: Places, offset: number): Block | undefined {
  let low = 0;
  let high = tree.blocks.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((tree.starts.get(tree.blocks[middle] as Block) ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return tree.blocks[low];
}

/** The block that speaks where an offset stands: its nodes are those of the tree. */
export function speakerAt(tree: Places, offset: number): Block | undefined {
  const block = blockAt(tree, offset);
  for (const [speaker, { written }] of tree.moved) if (written === block) return speaker;
  return block;
}

/** A stretch of the whole text as a place inside the block that it starts in. */
export function spanAt(tree: Places, from: number, to: number): Span | undefined {
  const block = blockAt(tree, from);
  if (!block) return undefined;
  const start = tree.starts.get(block) ?? 0;
  return { block, from: from - start, to: to - start };
}

/** A place as offsets of the whole text; undefined when it belongs to another text or version. */
export function rangeOf(tree: Places, at: Span): { from: number; to: number } | undefined {
  const start = tree.starts.get(at.block);
  if (start === undefined) return undefined;
  const moved = tree.moved.get(at.block);
  if (!moved) return { from: start + at.from, to: start + at.to };
  return { from: start + offsetIn(moved, at.from), to: start + offsetIn(moved, at.to) };
}

/** From the first to the last character of a node, however many blocks it spans. */
export function extentOf(tree: Places, node: Node): { from: number; to: number } {
  const own = rangeOf(tree, node) ?? { from: 0, to: 0 };
  if (node.kind === 'scalar') return own;
  const last = node.kind === 'map' ? lastOfMap(node) : node.items.findLast((item) => item !== undefined);
  // A section's own range is that of its first entry alone, since it spans many blocks.
  return last ? { from: own.from, to: Math.max(own.to, extentOf(tree, last).to) } : own;
}

function lastOfMap(node: MapNode): Node | undefined {
  const pair = node.pairs.at(-1);
  return pair?.value ?? pair?.key;
}

/** The end of a stretch without the blanks and line ends behind its last word. */
export function endOfWords(text: string, from: number, to: number): number {
  let end = to;
  while (end > from && /\s/.test(text[end - 1] ?? '')) end--;
  return end;
}
