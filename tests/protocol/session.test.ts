import { afterEach, describe, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

const MACHINE = uriOf('examples/gantry-router/gantry-router.machine.yaml');
const NOT_INITIALIZED = -32002;
const METHOD_NOT_FOUND = -32601;
const REQUEST_CANCELLED = -32800;

let client: Client;
afterEach(() => client.stop());

const errorOf = (promise: Promise<unknown>): Promise<{ code: number; message: string }> =>
  promise.then(
    (answer) => Promise.reject(new Error(`answered ${JSON.stringify(answer)} instead of an error`)),
    (error: { code: number; message: string }) => error,
  );

const exitOf = (it: Client): Promise<number | null> =>
  new Promise((resolve) => {
    if (it.process.exitCode !== null) resolve(it.process.exitCode);
    else it.process.once('exit', (code) => resolve(code));
  });

describe('start of a session', () => {
  it('says what it can do', async () => {
    client = await startClient({ pulls: true });
    const { capabilities } = client.initialized;
    const sync = capabilities.textDocumentSync;
    expect(typeof sync === 'object' ? sync.change : sync).toBe(2); // incremental
    expect(capabilities.positionEncoding ?? 'utf-16').toBe('utf-16');
    expect(capabilities.hoverProvider).toBeTruthy();
    expect(capabilities.inlayHintProvider).toBeTruthy();
    expect(capabilities.completionProvider).toMatchObject({
      triggerCharacters: expect.arrayContaining(['.']),
    });
    expect(capabilities.codeActionProvider).toBeTruthy();
    expect(capabilities.definitionProvider).toBeTruthy();
    expect(capabilities.documentSymbolProvider).toBeTruthy();
    expect(capabilities.diagnosticProvider).toMatchObject({ interFileDependencies: true });
    expect(client.initialized.serverInfo?.name).toMatch(/fettle/i);
  });

  it('refuses requests before the handshake and works after it', async () => {
    client = await startClient({ initialize: false });
    const early = client.request('textDocument/hover', {
      textDocument: { uri: MACHINE },
      position: { line: 0, character: 0 },
    });
    expect((await errorOf(early)).code).toBe(NOT_INITIALIZED);
    const answer = await client.request('initialize', { processId: null, rootUri: null, capabilities: {} });
    expect(answer).toHaveProperty('capabilities');
  });

  it('works for a client that can do nothing and has no folder', async () => {
    client = await startClient({ initialize: false });
    await client.request('initialize', { processId: null, rootUri: null, capabilities: {} });
    await client.connection.sendNotification('initialized', {});
    client.open(MACHINE, readExample());
    expect((await client.waitForDiagnostics(MACHINE)).length).toBeGreaterThan(0);
  });

  it('survives a refused request for settings', async () => {
    client = await startClient({ folder: EXAMPLE_FOLDER }); // no settings given: the client refuses
    client.open(MACHINE, readExample());
    await client.waitForDiagnostics(MACHINE);
    expect(await client.hover(MACHINE, client.placeOf(MACHINE, '620 mm'))).not.toBeUndefined();
  });

  it.each([
    ['null', null],
    ['an empty object', {}],
    ['nonsense', { inlayHints: 7, findings: ['x'] }],
  ])('takes %s for settings', async (_, settings) => {
    client = await startClient({ settings });
    client.open(MACHINE, readExample());
    expect((await client.waitForDiagnostics(MACHINE)).length).toBeGreaterThan(0);
  });
});

describe('unusual requests', () => {
  it('answers an unknown request with the error for it', async () => {
    client = await startClient();
    expect((await errorOf(client.request('textDocument/unheardOf', {}))).code).toBe(METHOD_NOT_FOUND);
    await client.connection.sendNotification('$/unheardOf', {});
    client.open(MACHINE, readExample());
    await client.waitForDiagnostics(MACHINE);
  });

  it('answers requests about documents that are not open, or closed again', async () => {
    client = await startClient({ pulls: true });
    client.open(MACHINE, readExample());
    await client.pull(MACHINE);
    client.close(MACHINE);
    const position = { line: 3, character: 3 };
    for (const uri of [MACHINE, uriOf('no/such.machine.yaml'), 'untitled:Untitled-1', 'not a uri', '']) {
      const textDocument = { uri };
      const range = { start: position, end: position };
      for (const [method, params] of [
        ['textDocument/hover', { textDocument, position }],
        ['textDocument/completion', { textDocument, position }],
        ['textDocument/definition', { textDocument, position }],
        ['textDocument/documentSymbol', { textDocument }],
        ['textDocument/references', { textDocument, position, context: { includeDeclaration: true } }],
        ['textDocument/documentHighlight', { textDocument, position }],
        ['textDocument/prepareRename', { textDocument, position }],
        ['textDocument/rename', { textDocument, position, newName: 'x' }],
        ['textDocument/linkedEditingRange', { textDocument, position }],
        ['textDocument/foldingRange', { textDocument }],
        ['textDocument/selectionRange', { textDocument, positions: [position] }],
        ['textDocument/documentLink', { textDocument }],
        ['textDocument/prepareCallHierarchy', { textDocument, position }],
        ['textDocument/inlayHint', { textDocument, range }],
        ['textDocument/codeAction', { textDocument, range, context: { diagnostics: [] } }],
        ['textDocument/diagnostic', { textDocument }],
      ] as const) {
        await expect(client.request(method, params), `${method} of ${uri}`).resolves.not.toThrow();
      }
    }
  });

  it('answers positions outside of the text', async () => {
    client = await startClient();
    client.open(MACHINE, readExample());
    for (const [line, character] of [
      [0, 9999],
      [99_999, 0],
      [2_147_483_647, 2_147_483_647],
    ] as const) {
      await expect(client.hover(MACHINE, { line, character })).resolves.not.toThrow();
      await expect(client.complete(MACHINE, { line, character })).resolves.not.toThrow();
    }
  });

  it('takes cancelled requests', async () => {
    client = await startClient();
    client.open(MACHINE, readExample());
    const position = client.placeOf(MACHINE, '620 mm');
    const outcomes = Array.from({ length: 20 }, () => {
      const source = new CancellationTokenSource();
      const params = { textDocument: { uri: MACHINE }, position };
      const answer = client.connection.sendRequest('textDocument/hover', params, source.token);
      source.cancel();
      return answer.then(
        () => 'answered',
        (error: { code: number }) => error.code,
      );
    });
    const seen = await Promise.all(outcomes);
    for (const outcome of seen) expect([REQUEST_CANCELLED, 'answered']).toContain(outcome);
    expect(seen.filter((outcome) => outcome === REQUEST_CANCELLED).length).toBeGreaterThan(15);
    expect(await client.hover(MACHINE, position)).not.toBeNull();
  });

  it('survives requests that make no sense', async () => {
    client = await startClient({ pulls: true });
    client.open(MACHINE, readExample());
    const methods = [
      'textDocument/hover',
      'textDocument/completion',
      'textDocument/definition',
      'textDocument/typeDefinition',
      'textDocument/references',
      'textDocument/documentHighlight',
      'textDocument/prepareRename',
      'textDocument/rename',
      'textDocument/linkedEditingRange',
      'textDocument/documentLink',
      'textDocument/foldingRange',
      'textDocument/selectionRange',
      'textDocument/prepareCallHierarchy',
      'callHierarchy/incomingCalls',
      'callHierarchy/outgoingCalls',
      'textDocument/documentSymbol',
      'textDocument/codeAction',
      'textDocument/inlayHint',
      'textDocument/diagnostic',
      'workspace/symbol',
      'workspace/diagnostic',
      'workspace/willRenameFiles',
    ];
    for (const params of [
      {},
      { textDocument: 7 },
      { textDocument: { uri: MACHINE } },
      { textDocument: { uri: null } },
    ])
      for (const method of methods)
        await expect(
          client.request(method, params),
          `${method} ${JSON.stringify(params)}`,
        ).resolves.not.toThrow();
    // The faults stand in the log, and everything goes on.
    const logged = client.notified.filter(({ method }) => method === 'window/logMessage');
    expect(logged.length).toBeGreaterThan(methods.length);
    expect(await client.hover(MACHINE, client.placeOf(MACHINE, '620 mm'))).not.toBeNull();
  });

  it('keeps apart two spellings of one file only in its answers', async () => {
    client = await startClient();
    const spelled = MACHINE.replace('gantry-router.machine', 'gantry%2Drouter.machine');
    client.open(spelled, readExample());
    expect((await client.waitForDiagnostics(spelled)).length).toBeGreaterThan(0);
  });
});

describe('end of a session', () => {
  it('answers shutdown within 100 ms and exits cleanly', async () => {
    // Two busy cores may take a turn away from the server, but not three times running.
    const taken: number[] = [];
    while (taken.length < 3 && !taken.some((time) => time < 100)) {
      client = await startClient();
      client.open(MACHINE, readExample());
      await client.waitForDiagnostics(MACHINE);
      const started = performance.now();
      await client.connection.sendRequest('shutdown');
      taken.push(performance.now() - started);
      await client.connection.sendNotification('exit');
      expect(await exitOf(client)).toBe(0);
    }
    expect(Math.min(...taken)).toBeLessThan(100);
  });

  it('ends when its input is closed', async () => {
    client = await startClient();
    await client.hover(MACHINE, { line: 0, character: 0 }); // so that nothing is on its way any more
    client.process.stdin?.end();
    expect(await exitOf(client)).not.toBeNull();
  });

  it('ends with an error when it is told to exit without a shutdown', async () => {
    client = await startClient();
    await client.connection.sendNotification('exit');
    expect(await exitOf(client)).toBe(1);
  });
});
