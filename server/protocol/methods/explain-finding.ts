import { type CodeAction, CodeActionKind, ShowDocumentRequest } from 'vscode-languageserver';
import type { Finding } from '../../core/findings/rule.ts';
import { guard } from '../guard.ts';
import type { Session } from '../session.ts';

/** The command that opens the page of a finding; what follows is the finding's code. */
export const EXPLAIN_FINDING = 'fettle.explainFinding';

/** Opens the page of a finding, for editors that let a server open something. */
export function registerExplainFinding(session: Session): void {
  const { connection } = session;
  connection.onExecuteCommand(
    guard(connection, 'explain a finding', null, async ({ command, arguments: given = [] }) => {
      const [code] = given as readonly unknown[];
      const uri = command === EXPLAIN_FINDING && typeof code === 'string' ? session.pageOf(code) : undefined;
      if (uri !== undefined) await connection.sendRequest(ShowDocumentRequest.type, { uri, takeFocus: true });
      return null;
    }),
  );
}

/** One action for each code among the findings at a place. */
export function explainAction(session: Session, findings: readonly Finding[]): CodeAction[] {
  const { showsPages, showsDocuments } = session.client;
  const canShow = (code: string) => showsPages || (showsDocuments && session.pageOf(code) !== undefined);
  const codes = new Set(findings.map(({ code }) => code));
  return [...codes].filter(canShow).map((code) => {
    const title = `Explain ${code}`;
    return {
      title,
      kind: CodeActionKind.QuickFix,
      command: { title, command: EXPLAIN_FINDING, arguments: [code] },
    };
  });
}
