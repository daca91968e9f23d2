import type { Problem } from '../problem.ts';
import { isSameList } from '../same-list.ts';
import type { Cuts } from './blocks.ts';
import type { ListNode, MapNode, Node, Pair, Scalar, Span } from './node.ts';
import type { ParsedBlock } from './yaml-block.ts';

/**
 * Puts the parsed blocks together to one map.
 * @param kinds what each stretch of the text is
 * @param said what the block of each says; undefined between the entries
 * @param problems is told what is noticed
 */
export function assemble(
  kinds: Cuts['kinds'],
  said: readonly (ParsedBlock | undefined)[],
  problems: Problem[],
): Node | undefined {
  const sections = new Map<string, Pair>();
  let open: { key: Scalar; children: Node[] } | undefined;
  let whole: Node | undefined;
  const addPair = (pair: Pair) => addUnique(sections, pair, problems);
  const close = () => {
    if (open) addPair(keepPair(open.key, joinKept(open.children, problems)));
    open = undefined;
  };
  for (let index = 0; index < kinds.length; index++) {
    const kind = kinds[index];
    const parsed = said[index];
    if (!parsed) continue;
    const { root, problems: own } = parsed;
    if (own.length > 0) problems.push(...own);
    if (kind === 'entry') {
      if (root) open?.children.push(root);
      continue;
    }
    close();
    if (kind === 'whole') whole = root;
    else if (root?.kind === 'map') {
      const key = root.pairs[0]?.key;
      if (kind === 'key' && key) open = { key, children: [] };
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
