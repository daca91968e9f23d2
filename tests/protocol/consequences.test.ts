import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Consequences } from '../../server/protocol/private.ts';
import { EXAMPLE_FILE, readExample } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

let client: Client;
const uri = uriOf(EXAMPLE_FILE);
beforeAll(async () => {
  client = await startClient();
  client.open(uri, readExample().replace('microsteps: 8', 'microsteps: 16'));
});
afterAll(() => client.stop());
const ask = (texts: readonly { uri: string; text: string }[], of = uri) =>
  client.request<Consequences | null>('fettle/consequences', { uri: of, texts });

test('what follows from the difference to another text is told as Markdown', async () => {
  const answer = await ask([{ uri, text: readExample() }]);
  expect(answer?.markdown).toContain('panel.c1-1: 160.000 /mm → 320.000 /mm');
  expect(answer?.markdown).not.toContain('sheet-not-found');
});

test('nothing follows from the same text, and everything from none', async () => {
  expect((await ask([{ uri, text: client.textOf(uri) }]))?.markdown).toContain(
    'Nothing follows from what differs',
  );
  expect((await ask([]))?.markdown).toMatch(/\*\*new\*\* drive\\?-x: generic/);
});

test('sheets that only the text before names are read', async () => {
  const before = client
    .textOf(uri)
    .replace('sheet: generic/roller-switch', 'sheet: generic/inductive-npn-no');
  expect(before).not.toBe(client.textOf(uri));
  const answer = await ask([{ uri, text: before }]);
  expect(answer?.markdown).toContain('generic/inductive-npn-no');
  expect(answer?.markdown).not.toContain('sheet-not-found');
});

test('a sheet may have been another one', async () => {
  const sheet = uri.replace('gantry-router.machine.yaml', 'sheets/four-axis-bench-panel.part.yaml');
  const answer = await ask([
    { uri, text: client.textOf(uri) },
    { uri: sheet, text: 'part: Panel\nclass: controller\n' },
  ]);
  expect(answer?.markdown).toMatch(/other facts in sheets/);
});

test('of a document that is not open nothing is known', async () => {
  expect(await ask([], uriOf('examples/none.machine.yaml'))).toBeNull();
});
