import {
  LSPErrorCodes,
  type PrepareRenameResult,
  ResponseError,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { toFileEdits, toSourceRange } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** A name changed in every file of the workspace, or the reason why it cannot be. */
export function registerRename(session: Session): void {
  const { connection, fettle } = session;
  connection.onPrepareRename(
    guard(
      connection,
      'rename',
      null,
      async ({ textDocument, position }): Promise<PrepareRenameResult | null> => {
        const sources = await session.workspace();
        const open = session.sourceOf(textDocument.uri);
        if (!open) return null;
        const prepared = fettle.prepareRename(open.source, open.document.offsetAt(position), sources);
        if (prepared.kind === 'refused') throw refusal(prepared.why);
        return { range: toSourceRange(open, prepared.at), placeholder: prepared.text };
      },
    ),
  );
  connection.onRenameRequest(
    guard(
      connection,
      'rename',
      null,
      async ({ textDocument, position, newName }): Promise<WorkspaceEdit | null> => {
        const sources = await session.workspace();
        const open = session.sourceOf(textDocument.uri);
        if (!open) return null;
        const renamed = fettle.rename(open.source, open.document.offsetAt(position), newName, sources);
        if (renamed.kind === 'refused') throw refusal(renamed.why);
        return toFileEdits(session, renamed.edits, `Rename ${renamed.name.text} to ${newName}`);
      },
    ),
  );
}

function refusal(why: string): ResponseError<void> {
  return new ResponseError(LSPErrorCodes.RequestFailed, why);
}
