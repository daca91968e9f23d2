import { afterAll, beforeAll, expect, it } from 'vitest';
import type { SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver/node';
import { readExample } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { VARIANTS } from '../support/marked.ts';

let client: Client;
const uri = uriOf('examples/gantry-router/other.machine.yaml');
beforeAll(async () => {
  client = await startClient({ pulls: true });
});
afterAll(() => client.stop());

/** Tokens as words: what stands there, and what it is. */
function wordsOf(data: readonly number[]): string[] {
  const { tokenTypes = [], tokenModifiers = [] } =
    client.initialized.capabilities.semanticTokensProvider?.legend ?? {};
  const lines = client.textOf(uri).split(/\r?\n/);
  const words: string[] = [];
  let [line, character] = [0, 0];
  for (let at = 0; at < data.length; at += 5) {
    const [down = 0, right = 0, length = 0, type = 0, modifiers = 0] = data.slice(at, at + 5);
    character = down === 0 ? character + right : right;
    line += down;
    const marks = tokenModifiers.filter((_, bit) => modifiers & (1 << bit)).map((mark) => `+${mark}`);
    words.push(`${lines[line]?.slice(character, character + length)} ${tokenTypes[type]}${marks.join('')}`);
  }
  return words;
}

const full = () =>
  client.request<SemanticTokens>('textDocument/semanticTokens/full', { textDocument: { uri } });

it.each([...VARIANTS])(
  'name parts, terminals, axes, sheets, settings, words and quantities: %s',
  async (_, vary) => {
    const text =
      '# 🙂\nparts:\n  psu: { about: 🙂, sheet: generic/supply-24v, set: { output-voltage: 24.0 V } }\nwiring:\n  - psu.V+ -> x.DC+  BN\n  - { cable: W1, screen: psu.PE, links: [psu.V- -> x.DC-] }\naxes:\n  X: { drive: x, screw: { lead: 5 mm, ends: fixed-free } }\n';
    client.open(uri, vary(text));
    const words = wordsOf((await full()).data);
    client.close(uri);
    expect(words).toEqual([
      'psu variable+declaration',
      'generic/supply-24v namespace+defaultLibrary',
      'output-voltage parameter',
      '24.0 V number',
      'psu variable',
      'V+ property',
      'x variable',
      'DC+ property',
      'BN enumMember',
      'psu variable',
      'PE property',
      'psu variable',
      'V- property',
      'x variable',
      'DC- property',
      'X class+declaration',
      'x variable',
      '5 mm number',
      'fixed-free enumMember',
    ]);
  },
);

it('tell of some lines only, and of an edit what differs', async () => {
  client.open(uri, readExample());
  const before = await full();
  const range = { start: { line: 130, character: 0 }, end: { line: 131, character: 0 } };
  const some = await client.request<SemanticTokens>('textDocument/semanticTokens/range', {
    textDocument: { uri },
    range,
  });
  expect(some.data[0]).toBeGreaterThanOrEqual(130);
  expect(some.data.length).toBeLessThan(before.data.length / 10);

  client.swap(uri, 'travel:       620 mm', 'travel:       1620 mm\n    mass: 3 kg');
  const delta = await client.request<SemanticTokensDelta>('textDocument/semanticTokens/full/delta', {
    textDocument: { uri },
    previousResultId: before.resultId,
  });
  const patched = [...before.data];
  for (const { start, deleteCount, data = [] } of delta.edits) patched.splice(start, deleteCount, ...data);
  const after = await full();
  expect(patched).toEqual(after.data);
  expect(delta.edits).toHaveLength(1);
  expect(delta.edits[0]?.data?.length).toBeLessThan(60);

  const unknown = await client.request<SemanticTokens>('textDocument/semanticTokens/full/delta', {
    textDocument: { uri },
    previousResultId: 'never',
  });
  expect(unknown.data).toEqual(after.data);
  client.close(uri);
});
