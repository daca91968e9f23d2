import { say } from '../language/say.ts';
import type { Problem } from '../problem.ts';
import type { ListNode, MapNode, Node, Scalar } from '../syntax/node.ts';
import { chooseShape, isNothing } from './branch.ts';
import { type Context, placeOf } from './context.ts';
import { checkKeys } from './keys.ts';
import { reportKinds } from './kinds.ts';
import { readLeaf } from './leaf.ts';
import type { EntriesShape, ListShape, MapShape, Shape } from './shape.ts';
import { describeNode, describeShape } from './words.ts';

/** What was found below a node, and the key at which it is said where all of the node is to blame. */
interface Checked {
  readonly owner: Scalar | undefined;
  readonly found: readonly Problem[];
}

/** Problems found below one node, kept as long as the node is. */
const kept = new WeakMap<Shape, WeakMap<Node, Checked>>();

function keptFor(shape: Shape): WeakMap<Node, Checked> {
  let problems = kept.get(shape);
  if (!problems) {
    problems = new WeakMap();
    kept.set(shape, problems);
  }
  return problems;
}

/**
 * Checks a tree against a shape: keys, kinds of values, choices and quantities. Never throws. What was found below a
 * node is kept with the node, so the next version of the tree is checked only where it differs.
 */
export function checkShape(root: Node | undefined, shape: Shape): readonly Problem[] {
  if (root === undefined) return [];
  const known = keptFor(shape);
  let checked = known.get(root);
  if (!checked) {
    const found = check(root, shape, { top: shape, path: [], owner: undefined, item: false });
    checked = { owner: undefined, found };
    known.set(root, checked);
  }
  return checked.found;
}

/**
 * Makes the check of what stands one step below a node. A list of links is checked anew with each of them: where most of
 * it is known already, that is the way to keep short, without an object for each.
 */
function checkerOf(shape: Shape, { top, path }: Context, step: string, item = false) {
  const known = keptFor(shape);
  const below = [...path, step];
  let context: Context = { top, path: below, owner: undefined, item };
  return (node: Node, owner: Scalar | undefined): readonly Problem[] => {
    // What a single value reads as is kept already.
    const before = node.kind === 'scalar' ? undefined : known.get(node);
    // The same entries may have come to stand under a key that was written anew; nothing is said of an item at its key.
    if (before && (item || before.owner === owner)) return before.found;
    if (context.owner !== owner) context = { top, path: below, owner, item };
    const found = check(node, shape, context);
    if (node.kind !== 'scalar') known.set(node, { owner, found });
    return found;
  };
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

function checkMap(node: MapNode, shape: MapShape, context: Context): readonly Problem[] {
  const problems = [...checkKeys(node, shape, context)];
  for (const { key, value } of node.pairs) {
    const known = shape.keys.get(key.text);
    if (!known) continue;
    if (!value || isNothing(value)) problems.push(reportNothing(key, known.shape, context));
    else problems.push(...checkerOf(known.shape, context, known.name)(value, key));
  }
  return problems;
}

function checkEntries(node: MapNode, shape: EntriesShape, context: Context): readonly Problem[] {
  const problems: Problem[] = [];
  const checkValue = checkerOf(shape.value, context, '*');
  for (const { key, value } of node.pairs) {
    if (!shape.name.test(key.text)) {
      const data = { expected: say`a name without blanks, dots or commas`, found: describeNode(key) };
      problems.push({ code: 'shape/wrong-type', at: key, data });
    }
    if (!value || isNothing(value)) problems.push(reportNothing(key, shape.value, context));
    else problems.push(...checkValue(value, key));
  }
  return problems;
}

/** Nothing under a key. A section that has just been opened is no mistake yet; a value left out is one. */
function reportNothing(key: Scalar, shape: Shape, { path }: Context): Problem {
  const code = path.length === 0 && shape.kind !== 'leaf' ? 'shape/empty-section' : 'shape/missing-value';
  return { code, at: key, data: { key: key.text, expected: describeShape(shape) } };
}

function checkList(node: ListNode, shape: ListShape, context: Context): readonly Problem[] {
  const { places, least } = shape;
  const count = node.items.length;
  if (count < least || (places.length > 0 && count > places.length)) {
    const found = count === 1 ? say`a list of one` : say`a list of ${count}`;
    return [reportWrongType(node, shape, context, found)];
  }
  const problems: Problem[] = [];
  const checkItem = checkerOf(shape.item, context, '*', true);
  for (let index = 0; index < count; index++) {
    const item = node.items[index];
    if (item && !isNothing(item)) {
      const found = checkItem(item, context.owner);
      if (found.length > 0) problems.push(...found);
      continue;
    }
    const data = { key: context.owner?.text ?? '', item: index + 1, expected: describeShape(shape.item) };
    problems.push({ code: 'shape/missing-value', at: item ?? placeOf(node, context), data });
  }
  return problems;
}

/** A value where a group of keys belongs: `screw: 5 mm` most likely says the first of them that takes such a value. */
function reportBareValue(node: Scalar, shape: MapShape, at: Problem['at'], data: Problem['data']): Problem {
  const key = [...shape.keys.values()].find(({ shape: inner }) => {
    if (inner.kind !== 'leaf' || inner.leaf.kind !== 'quantity') return false;
    const { value, problems } = readLeaf(node, inner.leaf);
    return value !== undefined && problems.length === 0;
  });
  if (!key || node.style === 'block') return { code: 'shape/wrong-type', at, data };
  const { block, from, to } = node;
  const meant = `{ ${key.name}: ${node.text} }`;
  const edits = [
    { at: { block, from, to: from }, text: `{ ${key.name}: ` },
    { at: { block, from: to, to }, text: ' }' },
  ];
  return {
    code: 'shape/wrong-type',
    at,
    data: { ...data, meant },
    fixes: [{ title: say`Change to ${meant}`, edits, safe: false }],
  };
}

/** Something of another sort than the format takes here. A single value for a list can be put into brackets. */
function reportWrongType(node: Node, shape: Shape, context: Context, found = describeNode(node)): Problem {
  const data = { key: context.owner?.text ?? '', expected: describeShape(shape), found };
  const at = placeOf(node, context);
  if (node.kind === 'scalar' && shape.kind === 'map') return reportBareValue(node, shape, at, data);
  if (node.kind !== 'scalar' || shape.kind !== 'list' || shape.least > 1 || node.style === 'block') {
    return { code: 'shape/wrong-type', at, data };
  }
  const { block, from, to } = node;
  const edits = [
    { at: { block, from, to: from }, text: '[' },
    { at: { block, from: to, to }, text: ']' },
  ];
  return { code: 'shape/wrong-type', at, data, fixes: [{ title: say`Make it a list`, edits, safe: false }] };
}
