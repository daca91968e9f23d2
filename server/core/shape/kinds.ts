import { say } from '../language/say.ts';
import type { Problem } from '../problem.ts';
import type { MapNode } from '../syntax/node.ts';
import { kindsIn } from './branch.ts';
import { type Context, placeOf } from './context.ts';
import { renameTo } from './leaf.ts';
import type { KindsShape } from './shape.ts';
import { nearestWord } from './spelling.ts';

/** What is wrong with a map that must be of exactly one kind; undefined when it is. */
export function reportKinds(node: MapNode, shape: KindsShape, context: Context): Problem | undefined {
  const [first, second] = kindsIn(node, shape);
  if (!first) return reportNoKind(node, shape, context);
  if (!second) return undefined;
  const one = first.key.text;
  const other = second.key.text;
  return {
    code: 'shape/two-kinds',
    at: second.key,
    data: { owner: context.owner?.text ?? '', of: shape.of, first: one, second: other },
    related: [{ at: first.key, note: say`also a ${one}` }],
  };
}

/** No kind at all; most often it is there and misspelt. */
function reportNoKind(node: MapNode, shape: KindsShape, context: Context): Problem {
  const owner = context.owner?.text ?? '';
  const known = [...shape.kinds.keys()];
  for (const { key } of node.pairs) {
    if (isFigure(key.text, shape)) continue;
    const nearest = nearestWord(key.text, known);
    if (nearest === undefined) continue;
    const data = { key: key.text, owner, known, nearest };
    return { code: 'shape/unknown-key', at: key, data, fixes: [renameTo(key, nearest, false)] };
  }
  return { code: 'shape/missing-kind', at: placeOf(node, context), data: { owner, of: shape.of, known } };
}

function isFigure(key: string, shape: KindsShape): boolean {
  return [...shape.kinds.values()].some((kind) => kind.keys.has(key));
}
