import { spawn } from 'node:child_process';
import fs from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { readExample } from '../support/example.ts';
import { type Folder, openFolder } from '../support/folder.ts';
import { type Client, SERVER, startClient, uriOf } from '../support/lsp-client.ts';

/** What can go wrong around the server: clients that die, streams that break off, watchers and settings that lie. */

const MACHINE = uriOf('examples/gantry-router/gantry-router.machine.yaml');
const GONE_WITHIN = 15_000; // ms; the protocol's library looks every few seconds whether the client still lives

let client: Client | undefined;
let folder: Folder | undefined;
afterEach(async () => {
  await client?.stop();
  folder?.remove();
  [client, folder] = [undefined, undefined];
});

const ended = (child: { exitCode: number | null; once: (event: 'exit', heard: () => void) => unknown }) =>
  child.exitCode === null
    ? new Promise<void>((resolve) => child.once('exit', () => resolve()))
    : Promise.resolve();

describe('streams', () => {
  it.each([
    ['nothing at all', ''],
    ['half a head', 'Content-Len'],
    ['half a message', 'Content-Length: 500\r\n\r\n{"jsonrpc":"2.0","id":1,'],
    ['a head without a length', 'Content-Type: x\r\n\r\n{}'],
    ['no JSON', 'Content-Length: 9\r\n\r\nnot JSON!'],
    ['a length that is none', 'Content-Length: many\r\n\r\n{}'],
  ])('that end after %s end the server', async (_, sent) => {
    const child = spawn(process.execPath, [SERVER, '--stdio'], { stdio: 'pipe' });
    child.stdin.end(sent);
    await ended(child);
    expect(child.exitCode).not.toBeNull();
  });

  it('whose other side is gone end the server', { timeout: GONE_WITHIN + 5000 }, async () => {
    // A client that dies without a word: its process is no more, but something keeps the pipe open.
    const dead = spawn(process.execPath, ['-e', '']);
    await ended(dead);
    client = await startClient({ initialize: false });
    await client.request('initialize', { processId: dead.pid, rootUri: null, capabilities: {} });
    await ended(client.process);
    expect(client.process.exitCode ?? client.process.signalCode).not.toBeNull();
  });
});

describe('messages', () => {
  const INVALID_REQUEST = -32600;
  const message = (content: object) => {
    const text = JSON.stringify({ jsonrpc: '2.0', ...content });
    return `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;
  };
  const initialize = { processId: null, rootUri: null, capabilities: {} };
  const refused = (request: Promise<unknown>) =>
    request.then(
      () => 'answered',
      ({ code }: { code: number }) => code,
    );

  it('that come letter by letter are put together', async () => {
    const child = spawn(process.execPath, [SERVER, '--stdio'], { stdio: 'pipe' });
    let out = '';
    const answered = new Promise<void>((resolve) =>
      child.stdout.on('data', (data) => {
        out += String(data);
        if (out.includes('"id":2')) resolve();
      }),
    );
    const sent =
      message({ id: 1, method: 'initialize', params: initialize }) + message({ id: 2, method: 'shutdown' });
    for (const letter of sent) await new Promise<void>((done) => child.stdin.write(letter, () => done()));
    await answered;
    child.stdin.end(message({ method: 'exit' }));
    await ended(child);
    expect(child.exitCode).toBe(0);
  });

  it('that introduce a client a second time are refused, and the first is served on', async () => {
    client = await startClient();
    expect(await refused(client.request('initialize', initialize))).toBe(INVALID_REQUEST);
    client.open(MACHINE, readExample());
    expect((await client.waitForDiagnostics(MACHINE)).length).toBeGreaterThan(0);
  });

  it('that come after shutdown are refused, and exit ends the server well', async () => {
    client = await startClient();
    client.open(MACHINE, readExample());
    await client.waitForDiagnostics(MACHINE);
    await client.request('shutdown');
    const hover = client.request('textDocument/hover', {
      textDocument: { uri: MACHINE },
      position: { line: 0, character: 0 },
    });
    expect(await refused(hover)).toBe(INVALID_REQUEST);
    await client.connection.sendNotification('exit');
    await ended(client.process);
    expect(client.process.exitCode).toBe(0);
  });

  it('that end a session before it began end the server', async () => {
    const child = spawn(process.execPath, [SERVER, '--stdio'], { stdio: 'pipe' });
    child.stdin.write(message({ method: 'exit' }));
    await ended(child);
    expect(child.exitCode).toBe(1);
  });

  it('whose answers nobody reads any more end the server without a word', async () => {
    const child = spawn(process.execPath, [SERVER, '--stdio'], { stdio: 'pipe' });
    let errors = '';
    child.stderr.on('data', (data) => {
      errors += String(data);
    });
    child.stdin.on('error', () => {}); // it may be gone before all is sent
    child.stdout.destroy();
    child.stdin.write(message({ id: 1, method: 'initialize', params: initialize }));
    for (let id = 2; id < 50; id++)
      child.stdin.write(message({ id, method: 'textDocument/hover', params: {} }));
    child.stdin.end();
    await ended(child);
    expect(errors).toBe('');
  });
});

describe('clients', () => {
  it('that refuse registrations and refreshes, after they announced them, are served all the same', async () => {
    client = await startClient({
      capabilities: {
        workspace: {
          didChangeWatchedFiles: { dynamicRegistration: true },
          didChangeConfiguration: { dynamicRegistration: true },
          diagnostics: { refreshSupport: true },
          inlayHint: { refreshSupport: true },
          codeLens: { refreshSupport: true },
        },
      },
    });
    for (const method of [
      'client/registerCapability',
      'workspace/diagnostic/refresh',
      'workspace/inlayHint/refresh',
      'workspace/codeLens/refresh',
    ])
      client.connection.onRequest(method, () => {
        throw new Error('This client does not want to.');
      });
    await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: null });
    client.open(MACHINE, readExample());
    expect((await client.waitForDiagnostics(MACHINE)).length).toBeGreaterThan(0);
    expect(client.process.exitCode).toBeNull();
  });

  it('that open what has no text, and change what is not open, are served all the same', async () => {
    client = await startClient();
    for (const [method, params] of [
      ['textDocument/didOpen', { textDocument: { uri: null } }],
      ['textDocument/didOpen', {}],
      [
        'textDocument/didChange',
        { textDocument: { uri: MACHINE, version: 7 }, contentChanges: [{ text: 'x' }] },
      ],
      ['textDocument/didClose', { textDocument: { uri: MACHINE } }],
      ['workspace/didChangeWatchedFiles', { changes: [{ uri: 7, type: 'x' }] }],
    ] as const)
      await client.connection.sendNotification(method, params);
    client.open(MACHINE, readExample());
    expect((await client.waitForDiagnostics(MACHINE)).length).toBeGreaterThan(0);
  });
});

describe('a watcher that lies', () => {
  it('about files that did not change, are gone, or never were, changes nothing that is found', async () => {
    folder = openFolder({
      'a.machine.yaml': 'machine: a\nparts:\n  p: { sheet: own.part.yaml }\n',
      'own.part.yaml': 'part: Own\nclass: load\n',
    });
    client = await startClient({ folder: folder.path });
    const uri = folder.uri('a.machine.yaml');
    client.open(uri, fs.readFileSync(`${folder.path}/a.machine.yaml`, 'utf8'));
    const before = (await client.waitForDiagnostics(uri)).map(({ code }) => code);
    const changes = ['own.part.yaml', 'never.part.yaml', '../outside.part.yaml', 'a.machine.yaml'].flatMap(
      (name) => [1, 2, 3].map((type) => ({ uri: folder?.uri(name), type })),
    );
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', { changes });
    const after = await client.request<{ items: readonly { code: string }[] }>('textDocument/diagnostic', {
      textDocument: { uri },
    });
    expect(after.items.map(({ code }) => code)).toEqual(before);
  });
});
