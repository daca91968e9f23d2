import type { Problem } from '../problem.ts';
import { isSameList } from '../same-list.ts';
import { type Cut, cutText } from './blocks.ts';
import { type Moved, offsetIn } from './moved.ts';
import type { Block, ListNode, MapNode, Node, Pair, Scalar, Span } from './node.ts';
import { type Prepared, prepareText, type Stretch } from './prepare.ts';
import { keepWords, takeBlocks } from './take-blocks.ts';
import { hasTooManyLetters, hasTooManyMarks, leaveUnread } from './too-long.ts';
import { parseBlock } from './yaml-block.ts';

/** One version of a text, parsed. Blocks that did not change are shared with the version before. */
export interface Tree {
  readonly text: string;
  readonly root: Node | undefined;
  readonly problems: readonly Problem[];
  /** The blocks as they are written. */
  readonly blocks: readonly Block[];
  /** Where each block starts in the text, those that speak for others among them. */
  readonly starts: ReadonlyMap<Block, number>;
  /** The blocks of earlier versions that speak for blocks of this one, since the words are the same. */
  readonly moved: ReadonlyMap<Block, Moved>;
}

type Places = Pick<Tree, 'blocks' | 'starts' | 'moved'>;

/**
 * Parses a text. Never throws: what cannot be read is a problem, and the rest is in the tree.
 * @param previous the version before, whose unchanged blocks are used again
 */
export function readTree(text: string, previous?: Tree): Tree {
  if (hasTooManyLetters(text)) return leaveUnread(text);
  const prepared = prepareText(text);
  const cuts = cutText(prepared.text);
  const taken = takeBlocks(prepared.text, cuts, previous?.blocks ?? []);
  const { blocks } = taken;
  if (hasTooManyMarks(text, blocks)) return leaveUnread(text);
  const starts = new Map(blocks.map((block, place) => [block, cuts[place]?.from ?? 0]));
  // What preparing the text showed is told of the blocks as they are written.
  const isPlain = prepared.tabs.length === 0 && prepared.conflicts.length === 0;
  const moved = previous && isPlain ? keepWords(taken, starts, previous.moved) : new Map<Block, Moved>();
  const spokenFor = new Map<Block, Block>();
  for (const [block, { written }] of moved) {
    starts.set(block, starts.get(written) ?? 0);
    spokenFor.set(written, block);
  }
  const problems: Problem[] = [];
  const speaking = moved.size === 0 ? blocks : blocks.map((block) => spokenFor.get(block) ?? block);
  const root = assemble(cuts, speaking, problems);
  const places = { blocks, starts, moved };
  return { text, root, problems: withPreparation(problems, prepared, places), ...places };
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

/** Puts the parsed blocks together to one map. */
function assemble(cuts: readonly Cut[], blocks: readonly Block[], problems: Problem[]): Node | undefined {
  const sections = new Map<string, Pair>();
  let open: { key: Scalar; children: Node[] } | undefined;
  let whole: Node | undefined;
  const addPair = (pair: Pair) => addUnique(sections, pair, problems);
  const close = () => {
    if (open) addPair(keepPair(open.key, joinKept(open.children, problems)));
    open = undefined;
  };
  for (const [index, cut] of cuts.entries()) {
    if (cut.kind === 'between') continue;
    const block = blocks[index] as Block;
    const { root, problems: own } = parseBlock(block);
    problems.push(...own);
    if (cut.kind === 'entry') {
      if (root) open?.children.push(root);
      continue;
    }
    close();
    if (cut.kind === 'whole') whole = root;
    else if (root?.kind === 'map') {
      const key = root.pairs[0]?.key;
      if (cut.kind === 'key' && key) open = { key, children: [] };
      else for (const pair of root.pairs) addPair(pair);
    } else if (root) addHalfTyped(root, addPair, problems);
  }
  close();
  if (whole || sections.size === 0) return whole;
  return keepRoot([...sections.values()]);
}

const keptPairs = new WeakMap<Scalar, Pair>();

/** A section with its entries; the same object while both are. */
function keepPair(key: Scalar, value: Node | undefined): Pair {
  let pair = keptPairs.get(key);
  if (!pair || pair.value !== value) {
    pair = { key, value };
    keptPairs.set(key, pair);
  }
  return pair;
}

const keptRoots = new WeakMap<Pair, MapNode>();

/** The sections as one map; the same object while all of them are. */
function keepRoot(pairs: readonly Pair[]): MapNode | undefined {
  const [first] = pairs;
  const known = first && keptRoots.get(first);
  if (known && isSameList(known.pairs, pairs)) return known;
  const root = mapOf(pairs);
  if (first && root) keptRoots.set(first, root);
  return root;
}

function addUnique(pairs: Map<string, Pair>, pair: Pair, problems: Problem[]): void {
  const earlier = pairs.get(pair.key.text);
  if (!earlier) pairs.set(pair.key.text, pair);
  else {
    problems.push({
      code: 'yaml/duplicate-key',
      at: pair.key,
      data: { key: pair.key.text },
      related: [{ at: earlier.key, note: 'first' }],
    });
  }
}

/** A word alone on its line is a key whose colon has not been typed yet. */
function addHalfTyped(root: Node, addPair: (pair: Pair) => void, problems: Problem[]): void {
  problems.push({
    code: 'yaml/syntax',
    at: root,
    data: {
      what: 'MISSING_COLON',
      near: root.kind === 'scalar' ? root.text.slice(0, 24) : '',
    },
  });
  if (root.kind === 'scalar') addPair({ key: root, value: undefined });
}

/** What was made of the entries of a section, by the first of them. */
const joined = new WeakMap<Node, Joined>();

interface Joined {
  readonly children: readonly Node[];
  readonly node: Node | undefined;
  readonly problems: readonly Problem[];
}

/** Joins the entries of a section. While they are the same, so is the section. */
function joinKept(children: readonly Node[], problems: Problem[]): Node | undefined {
  const [first] = children;
  if (!first) return undefined;
  let known = joined.get(first);
  if (!known || !isSameList(known.children, children)) {
    const own: Problem[] = [];
    known = { children, node: joinChildren(children, own), problems: own };
    joined.set(first, known);
  }
  problems.push(...known.problems);
  return known.node;
}

/** The entries of a section become its map, its items its list: whatever the first of them is. */
function joinChildren(children: readonly Node[], problems: Problem[]): Node | undefined {
  const first = children[0];
  if (!first) return undefined;
  if (first.kind === 'list') {
    const items: ListNode['items'][number][] = [];
    for (const child of children) {
      if (child.kind === 'list') items.push(...child.items);
      else
        problems.push({
          code: 'yaml/syntax',
          at: startOf(child),
          data: { what: 'MISSING_DASH', near: '' },
        });
    }
    return {
      kind: 'list',
      block: first.block,
      from: first.from,
      to: first.to,
      items,
      flow: false,
    };
  }
  const pairs = new Map<string, Pair>();
  for (const child of children) {
    if (child.kind === 'map') for (const pair of child.pairs) addUnique(pairs, pair, problems);
    else addHalfTyped(child, (pair) => addUnique(pairs, pair, problems), problems);
  }
  return mapOf([...pairs.values()]);
}

function startOf(node: Node): Span {
  return node.kind === 'map' && node.pairs[0] ? node.pairs[0].key : node;
}

function mapOf(pairs: readonly Pair[]): MapNode | undefined {
  const first = pairs[0]?.key;
  if (!first) return undefined;
  return {
    kind: 'map',
    block: first.block,
    from: first.from,
    to: first.to,
    pairs,
    flow: false,
  };
}

/** The block that holds an offset of the text, by bisection; undefined only for an empty text. */
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
