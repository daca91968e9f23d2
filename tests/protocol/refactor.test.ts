import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CodeAction } from 'vscode-languageserver/node';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

let client: Client;
const uri = uriOf('examples/refactored.machine.yaml');
const TEXT = 'machine: 🙂\r\nwiring:\r\n  - a.1 -> b.1, b.2  BN\r\naxes:\r\n  X: { travel: 1 in }\r\n';
beforeAll(async () => {
  client = await startClient({ pulls: true });
  client.open(uri, TEXT);
});
afterAll(() => client.stop());

function actionsAt(text: string, only?: string[]): Promise<CodeAction[]> {
  const start = client.placeOf(uri, text);
  const context = { diagnostics: [], ...(only && { only }) };
  return client.request('textDocument/codeAction', {
    textDocument: { uri },
    range: { start, end: start },
    context,
  });
}

it('refactorings are offered by their kinds', async () => {
  const kinds = (actions: readonly CodeAction[]) => [...new Set(actions.map(({ kind }) => kind))];
  expect(kinds(await actionsAt('b.1', ['refactor']))).toEqual(['refactor.rewrite']);
  expect(kinds(await actionsAt('b.1', ['refactor.extract']))).toEqual([]);
  expect(kinds(await actionsAt('1 in', ['refactor.rewrite']))).toEqual(['refactor.rewrite']);
  expect(kinds(await actionsAt('1 in'))).toContain('refactor.rewrite');
});

it('they are edits in the line ends of the text', async () => {
  const [split] = await actionsAt('b.1', ['refactor']);
  client.applyEdit(split?.edit);
  expect(client.textOf(uri)).toBe(TEXT.replace('b.1, b.2  BN', 'b.1  BN\r\n  - a.1 -> b.2  BN'));
});
