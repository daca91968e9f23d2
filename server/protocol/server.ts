import {
  type Connection,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  ResponseError,
  TextDocuments,
} from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { FileId } from '../core/world.ts';
import { createFiles, type Storage } from '../files/files.ts';
import { folderOf, keyOf } from '../files/keys.ts';
import { readAbilities } from './abilities.ts';
import { CAPABILITIES } from './capabilities.ts';
import { chooseStorage } from './client-storage.ts';
import { chooseEncoding, createDocument, type Encoding, updateDocument } from './encoding.ts';
import { findDefinitions, finishStart, type Host, noteSheet } from './follow-files.ts';
import { letRun, refuseFromNowOn } from './guard.ts';
import { chooseLanguage } from './language.ts';
import { registerCodeActions } from './methods/code-actions.ts';
import { registerCodeLens } from './methods/code-lens.ts';
import { registerColours } from './methods/colours.ts';
import { registerCompletion } from './methods/completion.ts';
import { registerConsequences } from './methods/consequences.ts';
import { registerDefinition } from './methods/definition.ts';
import { checkAll, registerDiagnostics } from './methods/diagnostics.ts';
import { registerExplainFinding } from './methods/explain-finding.ts';
import { registerFormatting } from './methods/formatting.ts';
import { registerHover } from './methods/hover.ts';
import { registerInlayHints } from './methods/inlay-hints.ts';
import { registerNames } from './methods/names.ts';
import { registerRename } from './methods/rename.ts';
import { registerSemanticTokens } from './methods/semantic-tokens.ts';
import { registerSheetLinks } from './methods/sheet-links.ts';
import { registerSignalWay } from './methods/signal-way.ts';
import { registerStart } from './methods/start.ts';
import { registerStructure } from './methods/structure.ts';
import { registerSummary } from './methods/summary.ts';
import { registerSymbols } from './methods/symbols.ts';
import { registerTryValues } from './methods/try-values.ts';
import { registerWorkspaceDiagnostics } from './methods/workspace-diagnostics.ts';
import { registerWorkspaceSymbols } from './methods/workspace-symbols.ts';
import { createSession, type Session } from './session.ts';

/** Serves one client over a connection until it says goodbye. */
export function startServer(connection: Connection, host: Host): void {
  let encoding: Encoding = 'utf-16';
  const documents = new TextDocuments<TextDocument>({
    create: (uri, languageId, version, text) => createDocument(uri, languageId, version, text, encoding),
    update: updateDocument,
  });
  const folders = new Set<FileId>();
  /** How the client spells the URI of each open file. */
  const spelled = new Map<FileId, string>();
  let session: Session | undefined;
  let storage: Storage;

  connection.onInitialize((params): InitializeResult => {
    if (session) throw new ResponseError(ErrorCodes.InvalidRequest, 'initialize comes once in a session.');
    chooseLanguage(params, host);
    encoding = chooseEncoding(params);
    for (const folder of foldersOf(params)) folders.add(folder);
    const abilities = readAbilities(params);
    storage = chooseStorage(connection, host.disk, abilities);
    const files = createFiles({
      library: host.library,
      read: storage.read,
      // A file opened by itself may name sheets beside it.
      folders: () => [...folders, ...documents.all().map(({ uri }) => folderOf(keyOf(uri)))],
      openText: (key) => documents.get(spelled.get(key) ?? key)?.getText(),
      openFiles: () => [...spelled.keys()],
    });
    session = createSession(connection, documents, files, abilities, encoding, spelled, host.pageOf);
    for (const register of METHODS) register(session);
    // Not every client draws a line above a line, and one that does not should not be asked to.
    const capabilities: InitializeResult['capabilities'] = {
      ...CAPABILITIES,
      positionEncoding: encoding,
      ...(session.client.showsLenses && { codeLensProvider: {} }),
      renameProvider: session.client.preparesRename ? { prepareProvider: true } : true,
    };
    return { serverInfo: { name: 'fettle' }, capabilities };
  });

  connection.onInitialized(() => {
    if (session) letRun(connection, 'start', finishStart(session, storage, folders));
  });
  connection.onShutdown(() => refuseFromNowOn(connection));
  // What no handler takes is unknown, or has come too early: handlers are made when the client has said what it can do.
  connection.onRequest((method) => {
    if (!session)
      throw new ResponseError(ErrorCodes.ServerNotInitialized, `${method} came before initialize.`);
    throw new ResponseError(ErrorCodes.MethodNotFound, `${method} is not known here.`);
  });
  connection.onDidChangeConfiguration(() => {
    if (!session) return;
    const current = session;
    current.options.forget();
    letRun(connection, 'settings', checkAll(current));
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    if (!session) return;
    const current = session;
    for (const { uri } of changes) current.files.forget(keyOf(uri));
    // What is open counts as it stands in the editor, and nothing depends on a machine.
    const isSilent = changes.every(({ uri }) => spelled.has(keyOf(uri)));
    const found = findDefinitions(current, storage, folders);
    letRun(
      connection,
      'changed files',
      found.then(() => (isSilent ? undefined : checkAll(current))),
    );
  });
  documents.onDidOpen(({ document }) => {
    spelled.set(keyOf(document.uri), document.uri);
    noteSheet(session, document.uri);
  });
  documents.onDidChangeContent(({ document }) => noteSheet(session, document.uri));
  documents.onDidClose(({ document }) => {
    spelled.delete(keyOf(document.uri));
    session?.files.forget(keyOf(document.uri)); // it may have been saved since it was read
    noteSheet(session, document.uri);
  });
  documents.listen(connection);
  connection.listen();
}

const METHODS = [
  registerDiagnostics,
  registerWorkspaceDiagnostics,
  registerHover,
  registerCompletion,
  registerCodeActions,
  registerDefinition,
  registerNames,
  registerRename,
  registerSheetLinks,
  registerWorkspaceSymbols,
  registerSignalWay,
  registerStructure,
  registerSymbols,
  registerInlayHints,
  registerCodeLens,
  registerSummary,
  registerConsequences,
  registerTryValues,
  registerFormatting,
  registerSemanticTokens,
  registerColours,
  registerExplainFinding,
  registerStart,
];

function foldersOf({ workspaceFolders, rootUri }: InitializeParams): FileId[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => keyOf(uri));
  return rootUri ? [keyOf(rootUri)] : [];
}
