import {
  CodeLensRefreshRequest,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from 'vscode-languageserver';
import { sheetsOf } from '../../core/names/name.ts';
import { countFindings, describeCoverage } from '../convert.ts';
import { guard, letRun, logFault } from '../guard.ts';
import { CHECKED, type Checked, SUMMARY_STALE, type SummaryStale } from '../private.ts';
import { answerWith, reportOf } from '../reports.ts';
import type { Analysed, Session } from '../session.ts';
import { settle } from '../settle.ts';

/** Findings, pulled by clients that can and pushed to the others; either way the client hears that there are new ones. */
export function registerDiagnostics(session: Session): void {
  const { connection, documents } = session;
  const empty: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };
  connection.languages.diagnostics.on(
    guard(connection, 'diagnostics', empty, async ({ textDocument, previousResultId }) => {
      const analysed = await session.analysisOf(textDocument.uri);
      if (!analysed) return empty;
      const related = await relatedReports(session, analysed);
      return {
        ...answerWith(reportOf(session, analysed), previousResultId),
        ...(related && { relatedDocuments: related }),
      };
    }),
  );

  const waiting = new Set<string>();
  // Changes that are already waiting are read first, so that a burst of keys is checked once.
  documents.onDidChangeContent(({ document }) => {
    if (waiting.has(document.uri)) return;
    waiting.add(document.uri);
    const { uri } = document;
    letRun(
      connection,
      'check',
      untilWanted(session, uri).then(() => {
        waiting.delete(uri);
        return check(session, uri);
      }),
    );
  });
  documents.onDidClose(({ document }) => {
    if (!session.client.pullsDiagnostics)
      letRun(connection, 'findings', connection.sendDiagnostics({ uri: document.uri, diagnostics: [] }));
  });
}

/** So long a client that fetches findings has for asking what it wants to know first, in ms. */
const ASKED_WITHIN = 30;

/**
 * Waits until an open document should be checked. A client that fetches its findings asks for them, and for what is under
 * the cursor, at once; what waits for the check is its status, and the refresh of a wiring summary that it shows.
 */
async function untilWanted({ documents, client }: Session, uri: string): Promise<void> {
  if (client.pullsDiagnostics) await new Promise((done) => setTimeout(done, ASKED_WITHIN));
  await settle(() => documents.get(uri)?.version);
}

/** Checks all open documents again, e.g. after a sheet changed on disk. */
export async function checkAll(session: Session): Promise<void> {
  session.filesChanged();
  const { connection, client } = session;
  if (client.refreshesDiagnostics)
    letRun(connection, 'refresh of findings', connection.languages.diagnostics.refresh());
  if (client.refreshesHints) letRun(connection, 'refresh of hints', connection.languages.inlayHint.refresh());
  if (client.refreshesLenses)
    letRun(connection, 'refresh of lenses', connection.sendRequest(CodeLensRefreshRequest.type));
  for (const { uri } of session.documents.all()) await check(session, uri);
}

/** Checks one open document. A fault in it is logged and leaves the others. */
async function check(session: Session, uri: string): Promise<void> {
  try {
    const analysed = await session.analysisOf(uri);
    if (analysed) await announce(session, analysed);
  } catch (fault) {
    logFault(session.connection, 'check', fault);
  }
}

async function announce(session: Session, analysed: Analysed): Promise<void> {
  const { connection, fettle } = session;
  const { uri, version } = analysed.document;
  if (!session.client.pullsDiagnostics) {
    await connection.sendDiagnostics({ uri, version, diagnostics: [...reportOf(session, analysed).items] });
  }
  // Other clients know neither of these, and some log each notification that they do not know.
  if (!session.client.hearsChecks) return;
  const counts = countFindings(fettle.findings(analysed.analysis));
  const checked: Checked = {
    uri,
    errors: counts.error,
    warnings: counts.warning,
    hints: counts.hint,
    covered: describeCoverage(analysed.analysis, fettle.silenced(analysed.analysis).length),
  };
  await connection.sendNotification(CHECKED, checked);
  await connection.sendNotification(SUMMARY_STALE, { uri } satisfies SummaryStale);
}

/** With a sheet the findings of the open machines that use it, since a change of the one changes the others. */
async function relatedReports(
  session: Session,
  { analysis }: Analysed,
): Promise<DocumentDiagnosticReport['relatedDocuments']> {
  if (!session.client.relatesDocuments || analysis.kind !== 'part') return undefined;
  const related: NonNullable<DocumentDiagnosticReport['relatedDocuments']> = {};
  for (const { uri } of session.documents.all()) {
    const open = session.sourceOf(uri);
    if (!open || !sheetsOf(open.source).has(analysis.file)) continue;
    const analysed = await session.analysisOf(uri);
    if (!analysed) continue;
    const { id, items } = reportOf(session, analysed);
    related[uri] = { kind: DocumentDiagnosticReportKind.Full, resultId: id, items: [...items] };
  }
  return related;
}
