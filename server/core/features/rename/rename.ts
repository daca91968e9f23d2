import { say } from '../../language/say.ts';
import type { Source } from '../../names/mention.ts';
import { type Found, mentionAt, mentionsOf, type Name, nameOf } from '../../names/name.ts';
import type { Span } from '../../syntax/node.ts';
import type { FileEdit } from '../sheet-links.ts';
import { readsAsRenamed } from './reads-as-renamed.ts';
import { whyBadName, whyFixed, whyTaken } from './refusals.ts';

/** Why something cannot be renamed, in words for the person who tried. */
export interface Refused {
  readonly kind: 'refused';
  readonly why: string;
}

/** A name that can be changed. */
export interface Renamable {
  readonly kind: 'name';
  readonly name: Name;
  readonly at: Span;
  readonly text: string;
  /** Every place where it stands. */
  readonly places: readonly Found[];
}

/** A name that was changed in every place. */
export interface Renamed {
  readonly kind: 'renamed';
  readonly name: Name;
  readonly edits: readonly FileEdit[];
}

/**
 * Looks whether what stands at an offset can be renamed.
 * @param sources the texts of the workspace, this one among them
 */
export function prepareRename(
  source: Source,
  offset: number,
  sources: readonly Source[],
): Renamable | Refused {
  const mention = mentionAt(source, offset);
  if (!mention)
    return {
      kind: 'refused',
      why: say`There is no name here. Parts, terminals, circuits, settings, cables, labels and axes have names that can be changed.`,
    };
  const name = nameOf(source, mention);
  const places = placesOf(name, sources);
  const why = whyFixed(source, mention, name, places);
  return why === undefined
    ? { kind: 'name', name, at: mention.at, text: mention.text, places }
    : { kind: 'refused', why };
}

/**
 * Changes a name in every place of the workspace. What comes out is read again before it is offered: each name must be
 * where it was, the old one called by the new word and all others as before.
 */
export function rename(
  source: Source,
  offset: number,
  text: string,
  sources: readonly Source[],
): Renamed | Refused {
  const prepared = prepareRename(source, offset, sources);
  if (prepared.kind === 'refused') return prepared;
  const { name, places } = prepared;
  if (text === name.text) return { kind: 'renamed', name, edits: [] };
  const why = whyBadName(name, text) ?? whyTaken(name, text, sources);
  if (why !== undefined) return { kind: 'refused', why };
  if (!readsAsRenamed(name, text, places))
    return {
      kind: 'refused',
      why: say`With ${text} in its place the text would be read differently, so ${name.text} stays.`,
    };
  return {
    kind: 'renamed',
    name,
    edits: places.map(({ source: where, mention }) => ({ source: where, at: mention.at, text })),
  };
}

/** Axis letters in a sheet say what its maker printed; a machine that calls its axis otherwise does not change that. */
function placesOf(name: Name, sources: readonly Source[]): Found[] {
  const found = mentionsOf(name, sources);
  return name.kind === 'axis' ? found.filter(({ source }) => source.file === name.home) : found;
}
