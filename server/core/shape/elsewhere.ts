import { say } from '../language/say.ts';
import type { MapShape, Shape } from './shape.ts';

/** A place where a key may stand, in the words of a message: "axes.X", "an entry of parts". */
interface Place {
  readonly path: readonly string[];
  readonly words: string;
  /** Set where only some kinds take the key. */
  readonly of?: string;
}

const kept = new WeakMap<Shape, ReadonlyMap<string, readonly Place[]>>();

/**
 * Where a key that is unknown here belongs, or undefined when it belongs nowhere.
 * @param top the shape of the whole file
 * @param here the keys from the top to the map in which it was found; the place nearest to it is taken
 */
export function findElsewhere(key: string, top: Shape, here: readonly string[]): string | undefined {
  let places = kept.get(top);
  if (!places) {
    places = listPlaces(top);
    kept.set(top, places);
  }
  const found = places.get(key) ?? [];
  if (found.length === 0) return undefined;
  const shared = Math.max(...found.map((place) => countShared(place.path, here)));
  const nearest = found.filter((place) => countShared(place.path, here) === shared);
  const shortest = Math.min(...nearest.map((place) => place.path.length));
  const best = nearest.filter((place) => place.path.length === shortest);
  const of = best.find((place) => place.of)?.of;
  const words = joinWords([...new Set(best.map((place) => place.words))]);
  return of === undefined ? words : say`a ${of} of the kind ${words}`;
}

function countShared(a: readonly string[], b: readonly string[]): number {
  const different = a.findIndex((key, index) => key !== b[index]);
  return different < 0 ? a.length : different;
}

function joinWords(words: readonly string[]): string {
  if (words.length <= MOST_PLACES) return words.join(say` or `);
  return say`${words.slice(0, MOST_PLACES).join(', ')} and others`;
}

const MOST_PLACES = 4;

function listPlaces(top: Shape): ReadonlyMap<string, readonly Place[]> {
  const places = new Map<string, Place[]>();
  const add = (shape: MapShape, place: Place) => {
    for (const key of shape.keys.keys()) {
      const list = places.get(key);
      if (list) list.push(place);
      else places.set(key, [place]);
    }
  };
  const walk = (shape: Shape, path: readonly string[]): void => {
    if (shape.kind === 'map') {
      add(shape, { path, words: nameMap(path) });
      for (const key of shape.keys.values()) walk(key.shape, [...path, key.name]);
    } else if (shape.kind === 'kinds') {
      for (const [kind, map] of shape.kinds) add(map, { path, words: kind, of: shape.of });
    } else if (shape.kind === 'entries') walk(shape.value, [...path, '*']);
    else if (shape.kind === 'list') walk(shape.item, [...path, '*']);
    else if (shape.kind === 'either') for (const branch of shape.branches) walk(branch, path);
  };
  walk(top, []);
  return places;
}

/** A map by the keys that lead to it; names of the user's own are left out. */
function nameMap(path: readonly string[]): string {
  if (path.length === 0) return say`the top of the file`;
  const keys = path.filter((key) => key !== '*').join('.');
  return path.at(-1) === '*' ? say`an entry of ${keys}` : keys;
}
