import type { ListNode, MapNode, Node, Pair, Scalar } from './node.ts';
import { extentOf, rangeOf, type Tree } from './tree.ts';

/** One step from a map or list towards a place in the text. */
export type Step =
  | { readonly kind: 'pair'; readonly map: MapNode; readonly pair: Pair }
  | { readonly kind: 'item'; readonly list: ListNode; readonly index: number; readonly item: Node };

/** What stands at an offset: the steps that lead there from the root, and the scalar if there is one. */
export interface Location {
  readonly steps: readonly Step[];
  readonly scalar: Scalar | undefined;
  /** True on a key, false on a value. */
  readonly onKey: boolean;
}

/** Finds what stands at an offset of the text. The place just behind a scalar counts as on it. */
export function locate(tree: Tree, offset: number): Location {
  const steps: Step[] = [];
  let node = tree.root;
  while (node) {
    if (node.kind === 'scalar')
      return { steps, scalar: holds(tree, node, offset) ? node : undefined, onKey: false };
    const step = node.kind === 'map' ? stepIntoMap(tree, node, offset) : stepIntoList(tree, node, offset);
    if (!step) break;
    steps.push(step);
    if (step.kind === 'pair' && holds(tree, step.pair.key, offset))
      return { steps, scalar: step.pair.key, onKey: true };
    node = step.kind === 'pair' ? step.pair.value : step.item;
  }
  return { steps, scalar: undefined, onKey: false };
}

/** The keys and positions of the steps, e.g. `['axes', 'X', 'screw', 'lead']` or `['wiring', 3, 'link']`. */
export function pathOf(steps: readonly Step[]): (string | number)[] {
  return steps.map((step) => (step.kind === 'pair' ? step.pair.key.text : step.index));
}

function stepIntoMap(tree: Tree, map: MapNode, offset: number): Step | undefined {
  const pair = findHolding(tree, map.pairs, offset, ({ key, value }) => [key, value ?? key]);
  return pair && { kind: 'pair', map, pair };
}

function stepIntoList(tree: Tree, list: ListNode, offset: number): Step | undefined {
  const items = list.items.flatMap((item, index) => (item ? [{ item, index }] : []));
  const found = findHolding(tree, items, offset, ({ item }) => [item, item]);
  return found && { kind: 'item', list, ...found };
}

/**
 * The one of some neighbours that holds an offset. They stand in the order of the text, except for what aliases and
 * merge keys bring in from elsewhere; so the last that starts before the offset is looked at first, and all only then.
 */
function findHolding<T>(
  tree: Tree,
  neighbours: readonly T[],
  offset: number,
  endsOf: (each: T) => readonly [first: Node, last: Node],
): T | undefined {
  const startOf = (each: T) => rangeOf(tree, endsOf(each)[0])?.from ?? Number.POSITIVE_INFINITY;
  const isHeldBy = (each: T) => startOf(each) <= offset && offset <= extentOf(tree, endsOf(each)[1]).to;
  const likely = neighbours.findLast((each) => startOf(each) <= offset);
  return likely !== undefined && isHeldBy(likely) ? likely : neighbours.find(isHeldBy);
}

function holds(tree: Tree, node: Node, offset: number): boolean {
  const range = rangeOf(tree, node);
  return range !== undefined && range.from <= offset && offset <= range.to;
}
