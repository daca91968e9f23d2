import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CompletionItem } from 'vscode-languageserver/node';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

let client: Client;
beforeAll(async () => {
  client = await startClient({ pulls: true });
});
afterAll(() => client.stop());

it('an item is documented when somebody looks at it', async () => {
  const uri = uriOf('examples/completed.machine.yaml');
  client.open(uri, 'axes:\n  X: { tr');
  const items = await client.complete(uri, client.positionAt(uri, 15));
  const travel = items.find(({ label }) => label === 'travel');
  expect(travel?.documentation).toBeUndefined();
  const whole = await client.request<CompletionItem>('completionItem/resolve', travel);
  expect(whole.documentation).toMatchObject({
    kind: 'markdown',
    value: expect.stringMatching(/travel|length|far/i),
  });
  // An item of an older list is answered as it came.
  await client.complete(uri, client.positionAt(uri, 15));
  expect(await client.request('completionItem/resolve', travel)).toEqual(travel);
});

it('an empty file is begun by a snippet, or by plain text where there are none', async () => {
  const uri = uriOf('examples/empty.machine.yaml');
  client.open(uri, '');
  const item = (await client.complete(uri, { line: 0, character: 0 })).find(
    ({ label }) => label === 'new machine',
  );
  expect(item).toMatchObject({ insertTextFormat: 2, insertTextMode: 1, kind: 15 });
  expect(item?.textEdit?.newText).toMatch(/^machine: \$\{1:My machine\}\n/);

  const simple = await startClient({ pulls: true, capabilities: { textDocument: { completion: {} } } });
  simple.open(uri, '');
  const plain = (await simple.complete(uri, { line: 0, character: 0 })).find(
    ({ label }) => label === 'new machine',
  );
  expect(plain?.insertTextFormat).toBeUndefined();
  expect(plain?.textEdit?.newText).toMatch(/^machine: My machine\n/);
  await simple.stop();
});
