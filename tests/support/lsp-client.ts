import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  type CodeAction,
  type CompletionItem,
  type CompletionList,
  createMessageConnection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type Hover,
  type InitializeParams,
  type InitializeResult,
  type InlayHint,
  type MessageConnection,
  type Position,
  type PublishDiagnosticsParams,
  type Range,
  StreamMessageReader,
  StreamMessageWriter,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';

export const ROOT = path.resolve(import.meta.dirname, '../..');
export const SERVER = path.join(ROOT, 'dist/server.cjs');

/** What the server asks for: a file, or settings. */
interface Asked {
  readonly uri: string;
  readonly items: readonly { readonly scopeUri?: string }[];
}

export interface ClientOptions {
  /** True offers to pull diagnostics; false leaves it to the server to push them. */
  readonly pulls?: boolean;
  /** The workspace folder. */
  readonly folder?: string;
  /** False starts the process and sends nothing. */
  readonly initialize?: boolean;
  /** What workspace/configuration answers for every section; absent refuses the request, as some clients do. */
  readonly settings?: unknown;
  readonly capabilities?: InitializeParams['capabilities'];
  readonly initializationOptions?: unknown;
  /** The language of the editor. */
  readonly locale?: string;
  readonly env?: NodeJS.ProcessEnv;
  /** The workspace folder where it is on no disk. */
  readonly workspaceUri?: string;
  /** What the client answers to requests of the server, by their names. */
  readonly answers?: Readonly<Record<string, (params: Asked) => unknown>>;
}

/** A small language client for tests, which records what the server sends. */
export interface Client {
  readonly connection: MessageConnection;
  readonly process: ChildProcess;
  readonly initialized: InitializeResult;
  /** All pushed diagnostics, oldest first. */
  readonly published: readonly PublishDiagnosticsParams[];
  /** All other notifications of the server, oldest first. */
  readonly notified: readonly { readonly method: string; readonly params: unknown }[];
  /** Everything the process wrote to its standard error. */
  readonly errors: () => string;
  readonly open: (uri: string, text: string, languageId?: string) => void;
  /** Replaces one stretch of an open text, as an editor sends it: incrementally. */
  readonly replace: (uri: string, range: Range, text: string) => void;
  /** Replaces the first occurrence of some text in an open text. */
  readonly swap: (uri: string, from: string, to: string) => void;
  readonly close: (uri: string) => void;
  readonly textOf: (uri: string) => string;
  readonly versionOf: (uri: string) => number;
  readonly positionAt: (uri: string, offset: number) => Position;
  /** The place of the n-th character of the first occurrence of some text; throws when it is not there. */
  readonly placeOf: (uri: string, text: string, offset?: number) => Position;
  /** The diagnostics pushed for the text's present version, or a later push of them within the time. */
  readonly waitForDiagnostics: (uri: string, milliseconds?: number) => Promise<readonly Diagnostic[]>;
  readonly pull: (uri: string, previousResultId?: string) => Promise<DocumentDiagnosticReport>;
  readonly hover: (uri: string, position: Position) => Promise<Hover | null>;
  readonly complete: (uri: string, position: Position) => Promise<readonly CompletionItem[]>;
  readonly inlayHints: (uri: string) => Promise<readonly InlayHint[]>;
  readonly codeActions: (uri: string, diagnostics: readonly Diagnostic[]) => Promise<readonly CodeAction[]>;
  /** Applies an edit to the open texts and tells the server, as an editor does after a quick fix. */
  readonly applyEdit: (edit: WorkspaceEdit | undefined) => void;
  readonly request: <T>(method: string, params?: unknown) => Promise<T>;
  /** Ends the session as the protocol says; kills the process if it has not gone within two seconds. */
  readonly stop: () => Promise<void>;
}

export const uriOf = (file: string): string => pathToFileURL(path.resolve(ROOT, file)).href;

/** Starts the built server and shakes hands with it. */
export async function startClient(options: ClientOptions = {}): Promise<Client> {
  const { pulls = false, folder = ROOT, initialize = true } = options;
  const child = spawn(process.execPath, [SERVER, '--stdio'], {
    stdio: 'pipe',
    ...(options.env ? { env: options.env } : {}),
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const documents = new Map<string, TextDocument>();
  let published: PublishDiagnosticsParams[] = [];
  const notified: { method: string; params: unknown }[] = [];
  const waiting = new Set<() => void>();
  let written = '';
  child.stderr.on('data', (data: Buffer) => {
    written += data.toString();
  });
  // A crash prints the line at fault, which in a bundle is the whole program.
  const errors = (): string =>
    written
      .split('\n')
      .filter((line) => line.trim() && line.length < 300)
      .join('\n');
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    published.push(params);
    for (const look of waiting) look();
  });
  connection.onNotification((method: string, params: unknown) => {
    notified.push({ method, params });
  });
  connection.onRequest('workspace/configuration', (params: { items: readonly unknown[] }) => {
    if (options.settings === undefined) throw new Error('This client has no settings.');
    return params.items.map(() => options.settings);
  });
  for (const [method, answer] of Object.entries(options.answers ?? {})) connection.onRequest(method, answer);
  connection.onRequest(() => null); // registrations, refreshes, progress: anything else is fine
  connection.listen();
  child.once('exit', () => {
    connection.dispose(); // refuses what is still unanswered
    for (const look of waiting) look();
  });

  const request = <T>(method: string, params: unknown = {}): Promise<T> =>
    connection.sendRequest<T>(method, params);
  const notify = (method: string, params: unknown = {}): void =>
    void connection.sendNotification(method, params);
  const documentOf = (uri: string): TextDocument => {
    const document = documents.get(uri);
    if (!document) throw new Error(`not open: ${uri}`);
    return document;
  };

  const initialized = initialize
    ? await request<InitializeResult>('initialize', {
        ...parametersOf(options.workspaceUri ?? pathToFileURL(folder).href, pulls, options.capabilities),
        initializationOptions: options.initializationOptions,
        ...(options.locale !== undefined && { locale: options.locale }),
      })
    : { capabilities: {} };
  if (initialize) notify('initialized');

  const replace = (uri: string, range: Range, text: string): void => {
    const document = documentOf(uri);
    const version = document.version + 1;
    documents.set(uri, TextDocument.update(document, [{ range, text }], version));
    notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges: [{ range, text }] });
  };

  const placeOf = (uri: string, text: string, offset = 0): Position => {
    const document = documentOf(uri);
    const index = document.getText().indexOf(text);
    if (index < 0) throw new Error(`not in the text: ${text}`);
    return document.positionAt(index + offset);
  };

  const waitForDiagnostics = (uri: string, milliseconds = 10_000): Promise<readonly Diagnostic[]> =>
    new Promise((resolve, reject) => {
      const { version } = documentOf(uri);
      const timer = setTimeout(() => {
        waiting.delete(look);
        reject(
          new Error(`no diagnostics for version ${version} of ${uri} in ${milliseconds} ms\n${errors()}`),
        );
      }, milliseconds);
      const look = (): void => {
        const found = published.findLast((params) => params.uri === uri && params.version === version);
        const gone = child.exitCode !== null || child.signalCode !== null;
        if (!found && !gone) return;
        clearTimeout(timer);
        waiting.delete(look);
        if (found) resolve(found.diagnostics);
        else reject(new Error(`the server has ended: ${errors()}`));
      };
      waiting.add(look);
      look();
    });

  return {
    connection,
    process: child,
    initialized,
    get published() {
      return published;
    },
    notified,
    errors,
    open: (uri, text, languageId = uri.endsWith('.part.yaml') ? 'fettle-part' : 'fettle-machine') => {
      documents.set(uri, TextDocument.create(uri, languageId, 1, text));
      published = published.filter((params) => params.uri !== uri); // version 1 begins anew
      notify('textDocument/didOpen', { textDocument: { uri, languageId, version: 1, text } });
    },
    replace,
    swap: (uri, from, to) => {
      replace(uri, { start: placeOf(uri, from), end: placeOf(uri, from, from.length) }, to);
    },
    close: (uri) => {
      documents.delete(uri);
      notify('textDocument/didClose', { textDocument: { uri } });
    },
    textOf: (uri) => documentOf(uri).getText(),
    versionOf: (uri) => documentOf(uri).version,
    positionAt: (uri, offset) => documentOf(uri).positionAt(offset),
    placeOf,
    waitForDiagnostics,
    pull: (uri, previousResultId) =>
      request('textDocument/diagnostic', {
        textDocument: { uri },
        ...(previousResultId === undefined ? {} : { previousResultId }),
      }),
    hover: (uri, position) => request('textDocument/hover', { textDocument: { uri }, position }),
    complete: async (uri, position) => {
      const answer = await request<CompletionItem[] | CompletionList | null>('textDocument/completion', {
        textDocument: { uri },
        position,
      });
      return Array.isArray(answer) ? answer : (answer?.items ?? []);
    },
    inlayHints: async (uri) => {
      const end = documentOf(uri).positionAt(documentOf(uri).getText().length);
      const range = { start: { line: 0, character: 0 }, end };
      return (
        (await request<InlayHint[] | null>('textDocument/inlayHint', { textDocument: { uri }, range })) ?? []
      );
    },
    codeActions: async (uri, diagnostics) => {
      const [first] = diagnostics;
      const range = first?.range ?? { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
      const params = { textDocument: { uri }, range, context: { diagnostics } };
      return (await request<CodeAction[] | null>('textDocument/codeAction', params)) ?? [];
    },
    applyEdit: (edit) => {
      for (const [uri, edits] of editsOf(edit)) {
        const document = documentOf(uri);
        const last = edits.toSorted(
          (a, b) => document.offsetAt(b.range.start) - document.offsetAt(a.range.start),
        );
        for (const { range, newText } of last) replace(uri, range, newText);
      }
    },
    request,
    stop: () => stopClient(connection, child),
  };
}

/** The text edits of a workspace edit, by document, whichever of its two spellings is used. */
export function editsOf(
  edit: WorkspaceEdit | undefined,
): readonly (readonly [string, readonly TextEdit[]])[] {
  const changes = Object.entries(edit?.changes ?? {});
  const documents = (edit?.documentChanges ?? []).flatMap((change) =>
    'edits' in change
      ? [[change.textDocument.uri, change.edits.filter((each) => 'newText' in each)] as const]
      : [],
  );
  return [...changes, ...documents];
}

function parametersOf(
  uri: string,
  pulls: boolean,
  more: InitializeParams['capabilities'] = {},
): InitializeParams {
  return {
    processId: process.pid,
    rootUri: uri,
    workspaceFolders: [{ uri, name: path.basename(uri) }],
    capabilities: {
      ...more,
      workspace: {
        configuration: true,
        workspaceFolders: true,
        workspaceEdit: { documentChanges: true },
        ...more.workspace,
      },
      textDocument: {
        publishDiagnostics: { versionSupport: true, relatedInformation: true, codeDescriptionSupport: true },
        ...(pulls ? { diagnostic: { relatedDocumentSupport: true } } : {}),
        hover: { contentFormat: ['markdown', 'plaintext'] },
        completion: { completionItem: { snippetSupport: true, documentationFormat: ['markdown'] } },
        codeAction: {
          codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix', 'source.fixAll'] } },
          dataSupport: true,
          resolveSupport: { properties: ['edit'] },
        },
        documentSymbol: { hierarchicalDocumentSymbolSupport: true },
        definition: { linkSupport: true },
        inlayHint: {},
        ...more.textDocument,
      },
    },
  };
}

async function stopClient(connection: MessageConnection, child: ChildProcess): Promise<void> {
  const hasEnded = (): boolean => child.exitCode !== null || child.signalCode !== null;
  if (hasEnded()) return;
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const timer = setTimeout(() => child.kill('SIGKILL'), 2000);
  try {
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
  } catch {} // it ended meanwhile, or was shut down before
  await gone;
  clearTimeout(timer);
}
