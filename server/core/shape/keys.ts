import type { Fix, Problem } from '../problem.ts';
import type { MapNode, Scalar } from '../syntax/node.ts';
import { type Context, placeOf } from './context.ts';
import { findElsewhere } from './elsewhere.ts';
import { renameTo } from './leaf.ts';
import type { MapShape } from './shape.ts';
import { addKeys } from './skeleton.ts';
import { nearestWord, sameWord } from './spelling.ts';

/** A key that the format does not have here: the nearest one that is still free, and where such a key belongs. */
export function reportUnknownKey(
  key: Scalar,
  node: MapNode,
  shape: MapShape,
  { top, owner }: Context,
): Problem {
  const nearest = nearestFreeKey(key, node, shape);
  const belongs = findElsewhere(key.text, top, shape.path);
  const data = {
    key: key.text,
    owner: owner?.text ?? '',
    known: [...shape.keys.keys()],
    ...(nearest !== undefined && { nearest }),
    ...(belongs !== undefined && { belongs }),
  };
  // A key of the format that stands in the wrong place is no slip of the finger.
  const fixes: Fix[] =
    nearest === undefined || belongs !== undefined
      ? []
      : [renameTo(key, nearest, sameWord(key.text, nearest))];
  return { code: 'shape/unknown-key', at: key, data, fixes };
}

/** The key that was most likely meant, among those that are not there yet. */
function nearestFreeKey(key: Scalar, node: MapNode, shape: MapShape): string | undefined {
  const taken = new Set(node.pairs.map((pair) => pair.key.text));
  return nearestWord(
    key.text,
    [...shape.keys.keys()].filter((name) => !taken.has(name)),
  );
}

/** Keys that the map cannot do without: one problem for all of them. A misspelt one is there already. */
export function checkMissing(node: MapNode, shape: MapShape, context: Context): Problem[] {
  const present = new Set(node.pairs.map((pair) => pair.key.text));
  const missing = [...shape.keys.values()].filter((key) => key.required && !present.has(key.name));
  if (missing.length === 0) return [];
  const unknown = node.pairs.filter((pair) => !shape.keys.has(pair.key.text));
  const misspelt = new Set(unknown.map((pair) => nearestFreeKey(pair.key, node, shape)));
  const names = missing.map((key) => key.name).filter((name) => !misspelt.has(name));
  if (names.length === 0) return [];
  const fix = addKeys(node, names);
  const data = { owner: context.owner?.text ?? '', missing: names };
  return [{ code: 'shape/missing-key', at: placeOf(node, context), data, fixes: fix ? [fix] : [] }];
}
