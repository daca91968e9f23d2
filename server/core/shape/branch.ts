import type { MapNode, Node, Scalar } from '../syntax/node.ts';
import type { KindsShape, MapShape, Shape } from './shape.ts';

/** The shape that a node is read by: unions are opened to the branch that fits best, undefined when none does. */
export function chooseShape(node: Node, shape: Shape): Shape | undefined {
  if (shape.kind === 'either') return chooseBranch(node, shape.branches);
  if (shape.kind === 'kinds') return node.kind === 'map' ? kindsIn(node, shape)[0]?.shape : undefined;
  return shape;
}

function chooseBranch(node: Node, branches: readonly Shape[]): Shape | undefined {
  const fitting = branches.filter((branch) => takes(branch, node));
  if (node.kind !== 'map' || fitting.length < 2) return fitting[0];
  const scored = fitting.map((branch) => ({
    branch,
    score: branch.kind === 'map' ? scoreKeys(node, branch) : 0,
  }));
  return scored.reduce((best, each) => (each.score > best.score ? each : best)).branch;
}

/** Whether a node is of the sort that a shape takes at all. */
function takes(shape: Shape, node: Node): boolean {
  switch (shape.kind) {
    case 'leaf':
      return node.kind === 'scalar';
    case 'list':
      return node.kind === 'list';
    case 'either':
      return shape.branches.some((branch) => takes(branch, node));
    case 'map':
    case 'kinds':
    case 'entries':
      return node.kind === 'map';
  }
}

/** A key that the branch cannot do without says more than any number of keys that it may have. */
function scoreKeys(node: MapNode, branch: MapShape): number {
  const known = node.pairs.map((pair) => branch.keys.get(pair.key.text));
  return known.reduce((score, key) => score + (key ? (key.required ? 100 : 1) : 0), 0);
}

/** The kinds that a map names, in the order of the text: exactly one when it is right. */
export function kindsIn(node: MapNode, shape: KindsShape): { key: Scalar; shape: MapShape }[] {
  return node.pairs.flatMap(({ key }) => {
    const kind = shape.kinds.get(key.text);
    return kind ? [{ key, shape: kind }] : [];
  });
}

/** True for what stands for nothing in YAML's core schema: `travel: ~`. */
export function isNothing(node: Node): boolean {
  return node.kind === 'scalar' && node.style === 'plain' && /^(?:~|null|Null|NULL)?$/.test(node.text);
}
