import type { Fix, Problem } from '../problem.ts';
import type { MapNode, Scalar } from '../syntax/node.ts';
import { type Context, placeOf } from './context.ts';
import { findElsewhere } from './elsewhere.ts';
import { renameTo } from './leaf.ts';
import type { MapShape } from './shape.ts';
import { addKeys } from './skeleton.ts';
import { nearestWord, sameWord } from './spelling.ts';

/** Keys that are not right in a map: those that the format does not have there, and those that are missing. */
export function checkKeys(node: MapNode, shape: MapShape, context: Context): readonly Problem[] {
  const present = new Set(node.pairs.map((pair) => pair.key.text));
  const absent = [...shape.keys.values()].filter((key) => !present.has(key.name));
  if (present.size === shape.keys.size - absent.length && !absent.some((key) => key.required)) return [];
  const free = absent.map((key) => key.name);
  const unknown = node.pairs
    .filter((pair) => !shape.keys.has(pair.key.text))
    .map((pair) => reportUnknown(pair.key, free, shape, context));
  // A misspelt key is there already.
  const misspelt = new Set(unknown.map((problem) => problem.data.nearest));
  const missing = absent.filter((key) => key.required && !misspelt.has(key.name)).map((key) => key.name);
  return missing.length === 0 ? unknown : [...unknown, reportMissing(node, missing, context)];
}

/** A key that the format does not have here: the nearest one that is still free, and where such a key belongs. */
function reportUnknown(
  key: Scalar,
  free: readonly string[],
  shape: MapShape,
  { top, path, owner }: Context,
): Problem {
  const nearest = nearestWord(key.text, free);
  const belongs = findElsewhere(key.text, top, path);
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

/** Keys that the map cannot do without: one problem for all of them. */
function reportMissing(node: MapNode, missing: readonly string[], context: Context): Problem {
  const fix = addKeys(node, missing);
  const data = { owner: context.owner?.text ?? '', missing };
  return { code: 'shape/missing-key', at: placeOf(node, context), data, fixes: fix ? [fix] : [] };
}
