import type { Mention, Source } from '../names/mention.ts';
import { mentionsIn } from '../names/mentions.ts';
import { findSheet, inSheetFolders } from '../project/find-sheet.ts';
import { NO_PROJECT, type Project } from '../project/project.ts';
import type { Span } from '../syntax/node.ts';
import type { FileId, World } from '../world.ts';

/** A place that names a file. */
export interface SheetLink {
  readonly at: Span;
  readonly file: FileId;
}

/** One replacement in one of several files. */
export interface FileEdit {
  readonly source: Source;
  readonly at: Span;
  readonly text: string;
}

/** The places of a machine that name a sheet. */
export function listSheetLinks(source: Source): SheetLink[] {
  return sheetsIn(source).map(({ at, text }) => ({ at, file: findSheet(source, text) }));
}

/** Where a file will be; undefined for one that stays. */
export type MovedTo = (file: FileId) => FileId | undefined;

/**
 * What has to be written in machines when files are moved: paths to a sheet that moves, and all relative paths in a
 * machine that moves. A path that stays right stays as it is written.
 */
export function fixPaths(sources: readonly Source[], movedTo: MovedTo): FileEdit[] {
  return sources.flatMap((source) => {
    const { world, file } = source;
    const after = { world, file: movedTo(file) ?? file, project: projectAfter(source, movedTo) };
    return sheetsIn(source).flatMap((mention): FileEdit[] => {
      const sheet = findSheet(source, mention.text);
      const wanted = movedTo(sheet) ?? sheet;
      const meant = [world.resolve(after.file, mention.text), ...inSheetFolders(after, mention.text)];
      if (meant.find((each) => each === wanted || stays(world, each, movedTo)) === wanted) return [];
      const path = world.pathTo(after.file, wanted);
      return path === undefined ? [] : [{ source, at: mention.at, text: writePath(mention, path) }];
    });
  });
}

function stays(world: World, file: FileId, movedTo: MovedTo): boolean {
  return world.file(file)?.kind === 'text' && movedTo(file) === undefined;
}

/** What will hold where a text will be. A project that was not the text's is taken for none, so that paths are written out. */
function projectAfter({ file, world, project }: Source, movedTo: MovedTo): Project {
  const own = project.file && (movedTo(project.file) ?? project.file);
  const nearest = world
    .projectFiles(movedTo(file) ?? file)
    .find((each) => each === own || stays(world, each, movedTo));
  return nearest === own ? { ...project, file: own } : NO_PROJECT;
}

function sheetsIn(source: Source): readonly Mention[] {
  return mentionsIn(source).filter(({ kind }) => kind === 'sheet');
}

/** A path in the place of another: inside the quotes that stand there, or plainly where YAML reads it as one word. */
function writePath({ at, text }: Mention, path: string): string {
  const isVerbatim = at.block.text.slice(at.from, at.to) === text;
  const around = isVerbatim ? `${at.block.text[at.from - 1]}${at.block.text[at.to]}` : '';
  if (around === "''") return path.replaceAll("'", "''");
  if (around === '""') return JSON.stringify(path).slice(1, -1);
  return /^(?:\.{1,2}\/)*[\w+][\w.+/-]*$/.test(path) ? path : JSON.stringify(path);
}
