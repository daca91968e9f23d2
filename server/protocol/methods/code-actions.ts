import { type CodeAction, type CodeActionContext, CodeActionKind } from 'vscode-languageserver';
import type { Finding } from '../../core/findings/rule.ts';
import { say } from '../../core/language/say.ts';
import type { Fix } from '../../core/problem.ts';
import { canBeMade, toWorkspaceEdit } from '../changes.ts';
import { toDiagnostic } from '../convert.ts';
import { guard } from '../guard.ts';
import type { Analysed, Session } from '../session.ts';
import { explainAction } from './explain-finding.ts';

/** Every safe fix of a file at once, as editors call it that offer such a thing on saving. */
const FIX_ALL = `${CodeActionKind.SourceFixAll}.fettle`;

/** The kinds of action that there are; an editor may ask for some of them only. */
export const ACTION_KINDS = [
  CodeActionKind.QuickFix,
  FIX_ALL,
  CodeActionKind.RefactorExtract,
  CodeActionKind.RefactorInline,
  CodeActionKind.RefactorRewrite,
];

/** A selection over more findings than this is no question about any of them. */
const MOST_AT_ONCE = 50;

/** Everything that can be done at a place: cures of findings first, then ways to silence and to understand them. */
export function registerCodeActions(session: Session): void {
  const { connection } = session;
  connection.onCodeAction(
    guard(connection, 'code actions', [], async ({ textDocument, range, context }): Promise<CodeAction[]> => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return [];
      const { document } = analysed;
      const [from, to] = [document.offsetAt(range.start), document.offsetAt(range.end)];
      return [
        ...(isWanted(context, CodeActionKind.QuickFix) ? actionsOn(session, analysed, from, to) : []),
        ...(isWanted(context, CodeActionKind.QuickFix) ? updatesAt(session, analysed, from, to) : []),
        ...refactorings(session, analysed, context, from, to),
        // What changes a whole file is not asked for by a cursor that happens to be in it.
        ...(context.only && isWanted(context, FIX_ALL) ? fixAllAction(session, analysed) : []),
      ];
    }),
  );
}

/** A kind stands for all that begin with it: `source` for `source.fixAll.fettle`. */
function isWanted({ only }: CodeActionContext, kind: string): boolean {
  return !only || only.some((wanted) => wanted === '' || kind === wanted || kind.startsWith(`${wanted}.`));
}

function actionsOn(session: Session, analysed: Analysed, from: number, to: number): CodeAction[] {
  const { fettle } = session;
  const { analysis } = analysed;
  const touched = fettle.findingsAt(analysis, from, to).slice(0, MOST_AT_ONCE);
  const silences = touched.flatMap((finding) =>
    actions(session, analysed, finding, fettle.silences(analysis, finding), false),
  );
  return [
    ...touched.flatMap((finding) => actions(session, analysed, finding, finding.fixes ?? [], true)),
    // Two findings of one code in one place are silenced by one comment.
    ...new Map(silences.map((action) => [action.title, action])).values(),
    ...explainAction(session, touched),
  ];
}

function actions(
  session: Session,
  analysed: Analysed,
  finding: Finding,
  fixes: readonly Fix[],
  cures: boolean,
): CodeAction[] {
  return fixes
    .filter((fix) => canBeMade(session, fix))
    .map((fix, index) => ({
      title: fix.title,
      kind: CodeActionKind.QuickFix,
      diagnostics: [toDiagnostic(session, analysed, finding)],
      isPreferred: cures && index === 0,
      edit: toWorkspaceEdit(session, analysed, fix),
    }));
}

function refactorings(
  session: Session,
  analysed: Analysed,
  context: CodeActionContext,
  from: number,
  to: number,
): CodeAction[] {
  if (
    context.only &&
    !ACTION_KINDS.some((kind) => kind.startsWith(CodeActionKind.Refactor) && isWanted(context, kind))
  )
    return [];
  return session.fettle
    .refactorings(analysed.analysis, from, to)
    .filter((each) => isWanted(context, each.kind) && canBeMade(session, each))
    .map((each) => ({ title: each.title, kind: each.kind, edit: toWorkspaceEdit(session, analysed, each) }));
}

/** At a figure that was changed: one action for all that follows from it, where no finding says so already. */
function updatesAt(session: Session, analysed: Analysed, from: number, to: number): CodeAction[] {
  return session.fettle.followUps(analysed.analysis, from, to).map((fix) => ({
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    edit: toWorkspaceEdit(session, analysed, fix),
  }));
}

function fixAllAction(session: Session, analysed: Analysed): CodeAction[] {
  const edits = session.fettle.fixAll(analysed.analysis);
  if (edits.length === 0) return [];
  return [
    {
      title: say`Fix all that is safe to fix`,
      kind: FIX_ALL,
      edit: toWorkspaceEdit(session, analysed, { edits }),
    },
  ];
}
