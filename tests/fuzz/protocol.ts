import fs from 'node:fs';
import fc from 'fast-check';
import { makeFolder } from '../support/folder.ts';
import { type Client, startClient } from '../support/lsp-client.ts';
import { Fault, must } from './case.ts';
import { SMALL } from './corpus.ts';
import type { Target } from './target.ts';

/** One message: a request if it has an answer, or a notification. */
export interface Message {
  readonly kind: 'request' | 'notification' | 'cancelled';
  readonly method: string;
  readonly params: unknown;
}

const PATIENCE = 30_000; // ms; an answer that takes longer on two busy cores is none

const TEXTS = SMALL.map(({ text }) => text);
const FOLDER = makeFolder();
/** What stands for the folder in a stored case. */
const HERE = '<folder>';
const URIS = ['a.machine.yaml', 'b.machine.yaml', 'own.part.yaml', '.fettle.yaml'].map(
  (name) => `file://${FOLDER}/${name}`,
);
const ODD_URIS = [
  '',
  'file:',
  'untitled:x.machine.yaml',
  'not a uri',
  'file:///%',
  'http://[',
  'file:///etc/passwd',
  `file://${FOLDER}/../x.part.yaml`,
];

const uri = fc.oneof(
  { weight: 9, arbitrary: fc.constantFrom(...URIS) },
  { weight: 1, arbitrary: fc.constantFrom(...ODD_URIS) },
);
const whole = fc.oneof(
  { weight: 9, arbitrary: fc.nat(40) },
  { weight: 1, arbitrary: fc.constantFrom(-1, 1e9, 2 ** 31 - 1, 0.5) },
);
const position = fc.record({ line: whole, character: whole });
const range = fc.record({ start: position, end: position });
const textDocument = fc.record({ uri });
const text = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(...TEXTS) },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 80 }) },
);
const at = { textDocument, position };

/** Parameters by method; those that nobody could mean are put in their place now and then. */
const REQUESTS: Readonly<Record<string, fc.Arbitrary<unknown>>> = {
  'textDocument/hover': fc.record(at),
  'textDocument/completion': fc.record(at),
  'textDocument/definition': fc.record(at),
  'textDocument/typeDefinition': fc.record(at),
  'textDocument/references': fc.record({ ...at, context: fc.constant({ includeDeclaration: true }) }),
  'textDocument/documentHighlight': fc.record(at),
  'textDocument/prepareRename': fc.record(at),
  'textDocument/rename': fc.record({
    ...at,
    newName: fc.oneof(fc.constantFrom('a', 'panel', '', '->'), fc.string({ maxLength: 6 })),
  }),
  'textDocument/linkedEditingRange': fc.record(at),
  'textDocument/prepareCallHierarchy': fc.record(at),
  'textDocument/documentSymbol': fc.record({ textDocument }),
  'textDocument/foldingRange': fc.record({ textDocument }),
  'textDocument/documentLink': fc.record({ textDocument }),
  'textDocument/documentColor': fc.record({ textDocument }),
  'textDocument/semanticTokens/full': fc.record({ textDocument }),
  'textDocument/semanticTokens/full/delta': fc.record({
    textDocument,
    previousResultId: fc.constantFrom('1', '2', 'x'),
  }),
  'textDocument/semanticTokens/range': fc.record({ textDocument, range }),
  'textDocument/formatting': fc.record({
    textDocument,
    options: fc.constant({ tabSize: 2, insertSpaces: true }),
  }),
  'textDocument/rangeFormatting': fc.record({
    textDocument,
    range,
    options: fc.constant({ tabSize: 2, insertSpaces: true }),
  }),
  'textDocument/onTypeFormatting': fc.record({
    ...at,
    ch: fc.constantFrom('\n', '}', 'x'),
    options: fc.constant({ tabSize: 2, insertSpaces: true }),
  }),
  'textDocument/inlayHint': fc.record({ textDocument, range }),
  'textDocument/codeAction': fc.record({ textDocument, range, context: fc.constant({ diagnostics: [] }) }),
  'textDocument/diagnostic': fc.record({ textDocument }),
  'textDocument/selectionRange': fc.record({ textDocument, positions: fc.array(position, { maxLength: 3 }) }),
  'workspace/symbol': fc.record({ query: fc.string({ maxLength: 4 }) }),
  'workspace/diagnostic': fc.record({
    previousResultIds: fc.array(fc.record({ uri, value: fc.string({ maxLength: 3 }) }), { maxLength: 2 }),
  }),
  'workspace/willRenameFiles': fc.record({
    files: fc.array(fc.record({ oldUri: uri, newUri: uri }), { maxLength: 2 }),
  }),
  'workspace/executeCommand': fc.record({
    command: fc.constantFrom('fettle.explainFinding', 'x'),
    arguments: fc.array(fc.anything(), { maxLength: 2 }),
  }),
  'fettle/unheardOf': fc.constant({}),
};

const NOTIFICATIONS: Readonly<Record<string, fc.Arbitrary<unknown>>> = {
  'textDocument/didOpen': fc.record({
    textDocument: fc.record({
      uri,
      languageId: fc.constantFrom('fettle-machine', 'fettle-part', 'plaintext'),
      version: fc.nat(9),
      text,
    }),
  }),
  'textDocument/didChange': fc.record({
    textDocument: fc.record({ uri, version: fc.nat(99) }),
    contentChanges: fc.array(fc.oneof(fc.record({ range, text }), fc.record({ text })), { maxLength: 3 }),
  }),
  'textDocument/didClose': fc.record({ textDocument }),
  'textDocument/didSave': fc.record({ textDocument }),
  'workspace/didChangeConfiguration': fc.record({ settings: fc.anything() }),
  'workspace/didChangeWatchedFiles': fc.record({
    changes: fc.array(fc.record({ uri, type: fc.constantFrom(1, 2, 3, 9) }), { maxLength: 3 }),
  }),
  'workspace/didChangeWorkspaceFolders': fc.record({ event: fc.constant({ added: [], removed: [] }) }),
  '$/setTrace': fc.record({ value: fc.constantFrom('off', 'verbose', 'x') }),
  '$/cancelRequest': fc.record({ id: fc.oneof(fc.nat(99), fc.string({ maxLength: 3 })) }),
  initialized: fc.constant({}),
};

const nonsense = fc.oneof(
  fc.constantFrom({}, { textDocument: 7 }, { textDocument: { uri: null } }, []),
  fc.object({ maxDepth: 2 }),
);

function messagesOf(
  kind: Message['kind'],
  by: Readonly<Record<string, fc.Arbitrary<unknown>>>,
): fc.Arbitrary<Message> {
  return fc.oneof(
    ...Object.entries(by).map(([method, params]) =>
      fc
        .oneof({ weight: 14, arbitrary: params }, { weight: 1, arbitrary: nonsense })
        .map((given): Message => ({ kind, method, params: given })),
    ),
  );
}

const message = fc.oneof(
  { weight: 6, arbitrary: messagesOf('request', REQUESTS) },
  { weight: 4, arbitrary: messagesOf('notification', NOTIFICATIONS) },
  { weight: 1, arbitrary: messagesOf('cancelled', REQUESTS) },
);

const CASES_A_CLIENT = 500;

let client: Client | undefined;
let sent = 0;

async function end(): Promise<void> {
  await client?.stop();
  client = undefined;
}

/** Sends messages to the built server: every request is answered, and the server lives. @throws Fault */
async function sendAll(messages: readonly Message[]): Promise<void> {
  // The test's client keeps all that it is told.
  if (++sent % CASES_A_CLIENT === 0) await end();
  client ??= await startClient({ folder: FOLDER, settings: {}, pulls: true });
  const { connection, process } = client;
  const answers = messages.map(async ({ kind, method, params }) => {
    if (kind === 'notification') return connection.sendNotification(method, params);
    await connection.sendRequest(method, params).catch((error: unknown) => {
      must(
        typeof (error as { code?: unknown }).code === 'number',
        () => `${method} is answered with ${String(error)}`,
      );
    });
  });
  try {
    await within(Promise.all(answers), messages);
    // The last word is a request that must be understood, whatever came before.
    const last = await within(connection.sendRequest('workspace/symbol', { query: '' }), messages);
    must(Array.isArray(last), () => `afterwards a plain request is answered with ${JSON.stringify(last)}`);
    must(
      process.exitCode === null && process.signalCode === null,
      () => `the server has ended: ${client?.errors()}`,
    );
  } catch (fault) {
    const errors = client.errors();
    process.kill('SIGKILL');
    client = undefined;
    throw fault instanceof Fault ? fault : new Fault(`${String(fault)}\n${errors}`);
  }
  for (const each of new Set(messages.flatMap(({ params }) => uriIn(params))))
    connection.sendNotification('textDocument/didClose', { textDocument: { uri: each } }).catch(() => {});
}

function uriIn(params: unknown): string[] {
  const given = (params as { textDocument?: { uri?: unknown } } | null)?.textDocument?.uri;
  return typeof given === 'string' ? [given] : [];
}

function within<T>(promise: Promise<T>, messages: readonly Message[]): Promise<T> {
  const methods = messages.map(({ method }) => method).join(', ');
  return new Promise<T>((resolve, reject) => {
    const timer = setTimeout(() => reject(new Fault(`no answer to ${methods}`)), PATIENCE);
    promise.then(resolve, reject).finally(() => clearTimeout(timer));
  });
}

/** Messages to the built server, in any order and with any parameters. Each case is a handful of them. */
export const protocolTarget: Target<readonly Message[]> = {
  name: 'protocol',
  about:
    'messages to the built server: requests, changes, cancellations, in any order and with what nobody means',
  share: 3,
  cases: fc.array(message, { minLength: 1, maxLength: 12 }),
  check: sendAll,
  store: (messages) => JSON.parse(JSON.stringify(messages).replaceAll(FOLDER, HERE)) as unknown,
  replay: (stored) =>
    sendAll(JSON.parse(JSON.stringify(stored).replaceAll(HERE, FOLDER)) as readonly Message[]),
  stop: async () => {
    await end();
    fs.rmSync(FOLDER, { recursive: true, force: true });
  },
};
