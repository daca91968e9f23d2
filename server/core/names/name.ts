import { MAINS } from '../model/resolve.ts';
import { findSheet } from '../project/find-sheet.ts';
import type { Block } from '../syntax/node.ts';
import { rangeOf, speakerAt, type Tree } from '../syntax/tree.ts';
import { type FileId, isSheetFile } from '../world.ts';
import type { Mention, NameKind, Source } from './mention.ts';
import { mentionsIn } from './mentions.ts';

/** Something with a name. Equal ones are the same thing, in whichever files they are mentioned. */
export interface Name {
  readonly kind: NameKind;
  readonly text: string;
  /** The file that defines it. */
  readonly home: FileId;
  /** The part in whose entry it is defined, where the facts of a part stand in the machine itself. */
  readonly inside: string | undefined;
}

/** A mention with the text that it is in. */
export interface Found {
  readonly source: Source;
  readonly mention: Mention;
}

/** The mention at an offset of a text; the place just behind a name counts as on it. */
export function mentionAt(source: Source, offset: number): Mention | undefined {
  const { tree } = source;
  const blocks = new Set([speakerAt(tree, offset), speakerAt(tree, Math.max(0, offset - 1))]);
  return mentionsIn(source).find(({ at }) => blocks.has(at.block) && covers(tree, at, offset));
}

function covers(tree: Tree, at: Mention['at'], offset: number): boolean {
  const range = rangeOf(tree, at);
  return range !== undefined && range.from <= offset && offset <= range.to;
}

/** What a mention names. The title of a sheet stands for its file. Terminals, circuits and settings of a part with a sheet are at home in the sheet. */
export function nameOf(source: Source, { kind, text, owner }: Mention): Name {
  const { file, world } = source;
  if (kind === 'title' && isSheetFile(world.nameOf(file)))
    return { kind: 'sheet', text: '', home: file, inside: undefined };
  if (kind === 'sheet') return { kind, text: '', home: findSheet(source, text), inside: undefined };
  if (owner === undefined || owner === MAINS) return { kind, text, home: file, inside: owner };
  const sheet = sheetFileOf(source, owner);
  return { kind, text, home: sheet ?? file, inside: sheet === undefined ? owner : undefined };
}

/** The file of the sheet that a part of a machine names; undefined where its facts stand in the machine or are missing. */
export function sheetFileOf(source: Source, part: string): FileId | undefined {
  const path = sheetPathsIn(source).get(part);
  return path === undefined ? undefined : findSheet(source, path);
}

const paths = new WeakMap<Tree, ReadonlyMap<string, string>>();

/** The sheet that each part of a machine names, as it is written. */
function sheetPathsIn(source: Source): ReadonlyMap<string, string> {
  let known = paths.get(source.tree);
  if (!known) {
    known = new Map(
      mentionsIn(source).flatMap(({ kind, owner, text }): [string, string][] =>
        kind === 'sheet' && owner !== undefined ? [[owner, text]] : [],
      ),
    );
    paths.set(source.tree, known);
  }
  return known;
}

/** The files of the sheets that a machine names. @param wants gets the files that have to be fetched to know them */
export function sheetsOf(source: Source, wants: FileId[] = []): ReadonlySet<FileId> {
  return new Set([...sheetPathsIn(source).values()].map((path) => findSheet(source, path, wants)));
}

/** All mentions of a name in some texts, in their order. An alias repeats a place; the place is given once. */
export function mentionsOf(name: Name, sources: readonly Source[]): Found[] {
  const home = sources.find(({ file }) => file === name.home);
  const lettered = name.kind === 'axis' && home ? sheetsOf(home) : new Set<FileId>();
  return sources.flatMap((source) => {
    // The letters of a machine's axes stand also in the sheets that it uses, where nothing defines them.
    const isLettered = lettered.has(source.file);
    const found = mentionsIn(source).filter(
      (mention) => mayBe(mention, name) && (isLettered || isSame(nameOf(source, mention), name)),
    );
    return dropRepeats(found).map((mention) => ({ source, mention }));
  });
}

function mayBe(mention: Mention, { kind, text }: Name): boolean {
  if (kind === 'sheet') return mention.kind === 'sheet' || mention.kind === 'title';
  return mention.kind === kind && mention.text === text;
}

/** True when two names are of one thing. */
export function isSame(a: Name, b: Name): boolean {
  return a.kind === b.kind && a.text === b.text && a.home === b.home && a.inside === b.inside;
}

function dropRepeats(mentions: readonly Mention[]): Mention[] {
  const seen = new Map<Block, Set<number>>();
  return mentions.filter(({ at: { block, from } }) => {
    const places = seen.get(block) ?? new Set();
    seen.set(block, places);
    const isNew = !places.has(from);
    places.add(from);
    return isNew;
  });
}
