import type { Mention, Source } from '../names/mention.ts';
import { mentionAt, mentionsOf, nameOf, sheetFileOf } from '../names/name.ts';
import type { Span } from '../syntax/node.ts';
import type { FileId } from '../world.ts';

/** Where something is defined; without a span it is the file itself. */
export interface Target {
  readonly file: FileId;
  readonly at: Span | undefined;
  /** The name that leads there. */
  readonly origin: Span;
}

/** Opens the text of a file that is known; undefined for one that is not. */
export type OpenSource = (file: FileId) => Source | undefined;

/** From a name to where it is defined: in the same text, or in the sheet of the part that it belongs to. */
export function findDefinition(source: Source, offset: number, open: OpenSource): Target[] {
  const mention = mentionAt(source, offset);
  if (!mention) return [];
  const name = nameOf(source, mention);
  const home = name.home === source.file ? source : open(name.home);
  if (!home) return [];
  if (name.kind === 'sheet') return [{ file: home.file, at: undefined, origin: mention.at }];
  return targets(
    mention,
    home,
    mentionsOf(name, [home]).filter((each) => each.mention.access === 'definition'),
  ).slice(0, 1);
}

/**
 * From a name to what tells what it is: a part's sheet, the circuits in which a terminal stands, the circuits that a
 * setting acts on.
 */
export function findTypeDefinition(source: Source, offset: number, open: OpenSource): Target[] {
  const mention = mentionAt(source, offset);
  if (!mention) return [];
  if (mention.kind === 'part') {
    const file = sheetFileOf(source, mention.text);
    return file !== undefined && open(file) ? [{ file, at: undefined, origin: mention.at }] : [];
  }
  if (mention.kind !== 'terminal') return findDefinition(source, offset, open);
  const name = nameOf(source, mention);
  const home = name.home === source.file ? source : open(name.home);
  if (!home) return [];
  const inCircuits = mentionsOf(name, [home]).filter(
    (each) => each.mention.access === 'use' && each.mention.owner === name.inside,
  );
  return targets(mention, home, inCircuits);
}

function targets(origin: Mention, home: Source, found: readonly { readonly mention: Mention }[]): Target[] {
  return found.map(({ mention }) => ({ file: home.file, at: mention.at, origin: origin.at }));
}
