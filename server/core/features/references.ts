import type { Mention, Source } from '../names/mention.ts';
import { type Found, mentionAt, mentionsOf, nameOf } from '../names/name.ts';

/** Every place of the workspace that names what stands at an offset; with its definition or without. */
export function findReferences(
  source: Source,
  offset: number,
  sources: readonly Source[],
  withDefinition: boolean,
): Found[] {
  const mention = mentionAt(source, offset);
  if (!mention) return [];
  return mentionsOf(nameOf(source, mention), sources).filter(
    (found) => withDefinition || found.mention.access !== 'definition',
  );
}

/** The places of one text that name what stands at an offset. */
export function findHighlights(source: Source, offset: number): Mention[] {
  return findReferences(source, offset, [source], true).map(({ mention }) => mention);
}
