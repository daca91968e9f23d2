import type {
  CancellationToken,
  ResultProgressReporter,
  WorkDoneProgressReporter,
  WorkspaceDiagnosticParams,
  WorkspaceDiagnosticReport,
  WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { say } from '../../core/language/say.ts';
import type { FileId } from '../../core/world.ts';
import { keyOf } from '../../files/keys.ts';
import { guard, logFault, refuseCancelled } from '../guard.ts';
import { answerWith, reportOf } from '../reports.ts';
import type { Session } from '../session.ts';

type Partial = ResultProgressReporter<{ items: WorkspaceDocumentDiagnosticReport[] }>;

/**
 * The findings of every machine and sheet of the workspace, open or not: each as soon as it is there where the client
 * takes them one by one, with progress, and between two files everything else has its turn.
 */
export function registerWorkspaceDiagnostics(session: Session): void {
  const { connection } = session;
  connection.languages.diagnostics.onWorkspace(
    guard(
      connection,
      'workspace diagnostics',
      { items: [] },
      async (
        params: WorkspaceDiagnosticParams,
        token: CancellationToken,
        progress: WorkDoneProgressReporter,
        partial?: Partial,
      ): Promise<WorkspaceDiagnosticReport> => {
        const items: WorkspaceDocumentDiagnosticReport[] = [];
        const add = (item: WorkspaceDocumentDiagnosticReport) =>
          partial ? partial.report({ items: [item] }) : void items.push(item);
        progress.begin(say`Checking machines and sheets`, 0, undefined, true);
        try {
          await reportAll(session, params, token, progress, add);
        } finally {
          progress.done();
        }
        return { items };
      },
    ),
  );
}

async function reportAll(
  session: Session,
  { previousResultIds }: WorkspaceDiagnosticParams,
  token: CancellationToken,
  progress: WorkDoneProgressReporter,
  add: (item: WorkspaceDocumentDiagnosticReport) => void,
): Promise<void> {
  const previous = new Map(previousResultIds.map(({ uri, value }) => [keyOf(uri), { uri, value }]));
  const files = session.files.world.definitions();
  for (const [index, file] of files.entries()) {
    // A pause, in which requests are read and a cancellation is heard.
    await new Promise((done) => setImmediate(done));
    refuseCancelled(token);
    progress.report(Math.round((100 * index) / files.length), session.files.world.nameOf(file));
    const item = await reportFile(session, file, previous.get(file)?.value);
    if (!item) continue;
    add(item);
    previous.delete(file);
  }
  // What the client still shows of files that are gone is taken back.
  for (const { uri } of previous.values()) add({ uri, version: null, kind: 'full', items: [] });
}

/** One file's findings; a fault in one is logged and leaves the others. */
async function reportFile(
  session: Session,
  file: FileId,
  previous: string | undefined,
): Promise<WorkspaceDocumentDiagnosticReport | undefined> {
  try {
    const analysed = await session.analysisOfFile(file);
    if (!analysed) return undefined;
    const { uri, version } = analysed.document;
    const isOpen = session.documents.get(uri) !== undefined;
    return { uri, version: isOpen ? version : null, ...answerWith(reportOf(session, analysed), previous) };
  } catch (fault) {
    logFault(session.connection, `check of ${file}`, fault);
    return undefined;
  }
}
