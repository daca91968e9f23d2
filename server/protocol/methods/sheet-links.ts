import type { DocumentLink, WorkspaceEdit } from 'vscode-languageserver';
import { say } from '../../core/language/say.ts';
import type { FileId } from '../../core/world.ts';
import { isInside, keyOf } from '../../files/keys.ts';
import { toFileEdits, toSourceRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** The sheets that a machine names: as links to open, and as paths that follow when files are moved. */
export function registerSheetLinks(session: Session): void {
  const { connection, fettle } = session;
  connection.onDocumentLinks(
    guard(connection, 'links', [], ({ textDocument }): DocumentLink[] => {
      const open = session.sourceOf(textDocument.uri);
      if (!open) return [];
      return fettle.sheetLinks(open.source).map(({ at, file }) => ({
        range: toSourceRange(open, at),
        data: file,
      }));
    }),
  );
  connection.onDocumentLinkResolve(
    guard(connection, 'link', { range: NOWHERE }, async (link): Promise<DocumentLink> => {
      const { data }: { data?: unknown } = link;
      if (typeof data !== 'string') return link;
      const sheet = keyOf(data);
      await session.files.fetch([sheet]);
      // A link to a file that is not there would only offer to make an empty one.
      if (session.files.world.file(sheet)?.kind !== 'text') return link;
      return { ...link, target: session.documentOf(sheet)?.uri ?? sheet, tooltip: say`Open the part sheet` };
    }),
  );
  connection.workspace.onWillRenameFiles(
    guard(connection, 'moved files', null, async ({ files }): Promise<WorkspaceEdit | null> => {
      const moves = files.map(({ oldUri, newUri }) => ({ from: keyOf(oldUri), to: keyOf(newUri) }));
      const edits = fettle.fixPaths(await session.workspace(), (file) => movedTo(moves, file));
      return edits.length === 0 ? null : toFileEdits(session, edits, say`Follow the files that are moved`);
    }),
  );
}

const NOWHERE = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** Where a file goes when it, or a folder that it is in, is moved. */
function movedTo(
  moves: readonly { readonly from: FileId; readonly to: FileId }[],
  file: FileId,
): FileId | undefined {
  const move = moves.find(({ from }) => file === from || isInside(from, file));
  return move && move.to + file.slice(move.from.length);
}
