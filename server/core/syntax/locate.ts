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
  const pair = map.pairs.find(({ key, value }) => {
    const from = rangeOf(tree, key)?.from ?? 0;
    const to = value ? extentOf(tree, value).to : (rangeOf(tree, key)?.to ?? 0);
    return from <= offset && offset <= to;
  });
  return pair && { kind: 'pair', map, pair };
}

function stepIntoList(tree: Tree, list: ListNode, offset: number): Step | undefined {
  for (const [index, item] of list.items.entries()) {
    if (!item) continue;
    const { from, to } = extentOf(tree, item);
    if (from <= offset && offset <= to) return { kind: 'item', list, index, item };
  }
  return undefined;
}

function holds(tree: Tree, node: Node, offset: number): boolean {
  const range = rangeOf(tree, node);
  return range !== undefined && range.from <= offset && offset <= range.to;
}
