import type { Problem } from '../problem.ts';
import type { ListNode, MapNode, Node, Pair } from '../syntax/node.ts';
import { chooseShape, isNothing } from './branch.ts';
import { type Context, placeOf } from './context.ts';
import { checkMissing, reportUnknownKey } from './keys.ts';
import { reportKinds } from './kinds.ts';
import { readLeaf } from './leaf.ts';
import type { EntriesShape, ListShape, MapShape, Shape } from './shape.ts';
import { describeNode, describeShape } from './words.ts';

/** Problems found below one node, kept as long as the node is. */
const kept = new WeakMap<Shape, WeakMap<Node, readonly Problem[]>>();

/**
 * Checks a tree against a shape: keys, kinds of values, choices and quantities. Never throws. What was found below a
 * node is kept with the node, so the next version of the tree is checked only where it differs.
 */
export function checkShape(root: Node | undefined, shape: Shape): readonly Problem[] {
  return root === undefined ? [] : checkNode(root, shape, { top: shape, owner: undefined });
}

/** Checks one node and all below it. */
function checkNode(node: Node, shape: Shape, context: Context): readonly Problem[] {
  let problems = kept.get(shape);
  if (!problems) {
    problems = new WeakMap();
    kept.set(shape, problems);
  }
  let found = problems.get(node);
  if (!found) {
    found = check(node, shape, context);
    problems.set(node, found);
  }
  return found;
}

function check(node: Node, shape: Shape, context: Context): readonly Problem[] {
  // While a circuit is of no kind or of two, nothing else can be said of it.
  const unclear =
    shape.kind === 'kinds' && node.kind === 'map' ? reportKinds(node, shape, context) : undefined;
  if (unclear) return [unclear];
  const opened = chooseShape(node, shape);
  if (opened?.kind === 'leaf' && node.kind === 'scalar')
    return nameKey(readLeaf(node, opened.leaf).problems, context);
  if (opened?.kind === 'map' && node.kind === 'map') return checkMap(node, opened, context);
  if (opened?.kind === 'entries' && node.kind === 'map') return checkEntries(node, opened, context);
  if (opened?.kind === 'list' && node.kind === 'list') return checkList(node, opened, context);
  return [reportWrongType(node, opened ?? shape, context)];
}

/** Messages name the key that a value belongs to. */
function nameKey(problems: readonly Problem[], { owner }: Context): readonly Problem[] {
  if (!owner || problems.length === 0) return problems;
  return problems.map((problem) => ({ ...problem, data: { key: owner.text, ...problem.data } }));
}

/** Checks the keys of a map and what stands under each. */
function checkMap(node: MapNode, shape: MapShape, context: Context): readonly Problem[] {
  const problems: Problem[] = [];
  for (const pair of node.pairs) {
    const key = shape.keys.get(pair.key.text);
    if (!key) problems.push(reportUnknownKey(pair.key, node, shape, context));
    else problems.push(...checkPair(pair, key.shape, context, shape.path.length === 0));
  }
  problems.push(...checkMissing(node, shape, context));
  return problems;
}

function checkEntries(node: MapNode, shape: EntriesShape, context: Context): readonly Problem[] {
  const problems: Problem[] = [];
  for (const pair of node.pairs) {
    if (!shape.name.test(pair.key.text)) {
      const data = { expected: 'a name without blanks, dots or commas', found: describeNode(pair.key) };
      problems.push({ code: 'shape/wrong-type', at: pair.key, data });
    }
    problems.push(...checkPair(pair, shape.value, context, false));
  }
  return problems;
}

/** Checks what stands under a key. A section that has just been opened is no mistake yet; a value left out is one. */
function checkPair(pair: Pair, shape: Shape, { top }: Context, section: boolean): readonly Problem[] {
  if (pair.value && !isNothing(pair.value)) return checkNode(pair.value, shape, { top, owner: pair.key });
  const data = { key: pair.key.text, expected: describeShape(shape) };
  const empty = section && shape.kind !== 'leaf';
  return [{ code: empty ? 'shape/empty-section' : 'shape/missing-value', at: pair.key, data }];
}

function checkList(node: ListNode, shape: ListShape, context: Context): readonly Problem[] {
  const { places, least } = shape;
  const count = node.items.length;
  if (count < least || (places.length > 0 && count > places.length)) {
    const found = count === 1 ? 'a list of one' : `a list of ${count}`;
    return [reportWrongType(node, shape, context, found)];
  }
  return node.items.flatMap((item, index) => {
    if (item && !isNothing(item)) return checkNode(item, shape.item, { ...context, item: true });
    const data = { key: context.owner?.text ?? '', item: index + 1, expected: describeShape(shape.item) };
    return [{ code: 'shape/missing-value', at: item ?? placeOf(node, context), data }];
  });
}

/** Something of another sort than the format takes here. A single value for a list can be put into brackets. */
function reportWrongType(node: Node, shape: Shape, context: Context, found = describeNode(node)): Problem {
  const data = { key: context.owner?.text ?? '', expected: describeShape(shape), found };
  const at = placeOf(node, context);
  if (node.kind !== 'scalar' || shape.kind !== 'list' || shape.least > 1 || node.style === 'block') {
    return { code: 'shape/wrong-type', at, data };
  }
  const { block, from, to } = node;
  const edits = [
    { at: { block, from, to: from }, text: '[' },
    { at: { block, from: to, to }, text: ']' },
  ];
  return { code: 'shape/wrong-type', at, data, fixes: [{ title: 'Make it a list', edits, safe: false }] };
}
