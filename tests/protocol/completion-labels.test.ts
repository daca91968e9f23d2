import { afterEach, expect, it } from 'vitest';
import type { CompletionItem } from 'vscode-languageserver/node';
import { type Client, type ClientOptions, startClient, uriOf } from '../support/lsp-client.ts';

const MACHINE = uriOf('toy.machine.yaml');
const TEXT = 'machine: Toy\nparts:\n  p: { sheet: generic/controller-3-axis }\nwiring:\n  - p.\n';

let client: Client | undefined;
afterEach(async () => client?.stop());

async function labelOf(name: string, options: ClientOptions): Promise<unknown> {
  client = await startClient({ pulls: true, ...options });
  client.open(MACHINE, TEXT);
  const items = await client.request<CompletionItem[]>('textDocument/completion', {
    textDocument: { uri: MACHINE },
    position: { line: 4, character: 6 },
  });
  const item = items.find(({ label }) => label === name);
  expect(item).toBeDefined();
  return item?.labelDetails;
}

it('says beside every terminal in the list what it is for', async () => {
  const completion = { completionItem: { labelDetailsSupport: true } };
  expect(await labelOf('I3', { capabilities: { textDocument: { completion } } })).toEqual({
    description: 'home X',
  });
});

it('says it to no client that does not draw it', async () => {
  expect(await labelOf('I3', {})).toBeUndefined();
});
