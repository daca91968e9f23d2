import type { Mention, Source } from '../names/mention.ts';
import { mentionAt, mentionsOf, nameOf } from '../names/name.ts';

/** Names that have all their places in one text, and may be typed in all of them at once. */
const LOCAL: ReadonlySet<Mention['kind']> = new Set(['part', 'circuit', 'cable', 'label', 'anchor']);

/**
 * The places that change together while one of them is typed; undefined where a name stands alone, is spelt with
 * escapes, or is used in other texts as well.
 */
export function findLinkedPlaces(source: Source, offset: number): Mention[] | undefined {
  const mention = mentionAt(source, offset);
  if (!mention || !LOCAL.has(mention.kind)) return undefined;
  const name = nameOf(source, mention);
  if (name.home !== source.file) return undefined;
  const places = mentionsOf(name, [source]).map((found) => found.mention);
  const isDefined = places.some(({ access }) => access === 'definition');
  const isPlain = places.every(({ at, text }) => at.block.text.slice(at.from, at.to) === text);
  return places.length > 1 && isDefined && isPlain ? places : undefined;
}
