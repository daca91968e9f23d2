import { type CodeAction, CodeActionKind, type WorkspaceEdit } from 'vscode-languageserver';
import type { OfferedFix } from '../../core/features/fixes.ts';
import { toDiagnostic, toTextEdits } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';

/** The fixes of the findings at the cursor, as edits of no more than what they change. */
export function registerCodeActions(session: Session): void {
  const { connection, fettle } = session;
  connection.onCodeAction(
    guard(connection, 'code actions', [], async ({ textDocument, range, context }): Promise<CodeAction[]> => {
      if (context.only && !context.only.some((kind) => CodeActionKind.QuickFix.startsWith(kind))) return [];
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return [];
      const [from, to] = [analysed.document.offsetAt(range.start), analysed.document.offsetAt(range.end)];
      const fixes = fettle.fixes(analysed.analysis, from, to);
      return fixes.map((offered) => toAction(session, analysed, offered, fixes));
    }),
  );
}

function toAction(
  session: Session,
  analysed: Analysed,
  offered: OfferedFix,
  all: readonly OfferedFix[],
): CodeAction {
  const { finding, fix } = offered;
  const isFirst = all.find((other) => other.finding === finding) === offered;
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [toDiagnostic(session, analysed, finding)],
    isPreferred: isFirst,
    edit: toWorkspaceEdit(session, analysed, offered),
  };
}

function toWorkspaceEdit(session: Session, analysed: Analysed, { fix }: OfferedFix): WorkspaceEdit {
  const { uri, version } = analysed.document;
  const edits = toTextEdits(analysed, fix.edits);
  return session.client.versionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits }] }
    : { changes: { [uri]: edits } };
}
