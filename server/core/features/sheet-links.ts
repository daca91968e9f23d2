import type { Mention, Source } from '../names/mention.ts';
import { mentionsIn } from '../names/mentions.ts';
import type { Span } from '../syntax/node.ts';
import type { FileId } from '../world.ts';

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
  return sheetsIn(source).map(({ at, text }) => ({ at, file: source.world.resolve(source.file, text) }));
}

/**
 * What has to be written in machines when files are moved: paths to a sheet that moves, and all relative paths in a
 * machine that moves. A path that stays right stays as it is written.
 * @param movedTo where a file will be; undefined for one that stays
 */
export function fixPaths(
  sources: readonly Source[],
  movedTo: (file: FileId) => FileId | undefined,
): FileEdit[] {
  return sources.flatMap((source) => {
    const { world, file } = source;
    const after = movedTo(file) ?? file;
    return sheetsIn(source).flatMap((mention): FileEdit[] => {
      const sheet = world.resolve(file, mention.text);
      const wanted = movedTo(sheet) ?? sheet;
      if (world.resolve(after, mention.text) === wanted) return [];
      const path = world.pathTo(after, wanted);
      return path === undefined ? [] : [{ source, at: mention.at, text: writePath(mention, path) }];
    });
  });
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
