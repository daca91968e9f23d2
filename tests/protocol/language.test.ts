import { expect, it } from 'vitest';
import { wordsOf } from '../support/example.ts';
import { type ClientOptions, startClient, uriOf } from '../support/lsp-client.ts';
import { pseudoWords } from '../support/pseudo.ts';

/** The built server in the language of its client: other words, the same edits. */

const TEXT = 'machine: Toy lathe\naxes:\n  X: { travel: 640 }\n';

async function lookIn(options: ClientOptions) {
  const client = await startClient(options);
  const uri = uriOf('examples/language.machine.yaml');
  client.open(uri, TEXT);
  const found = await client.waitForDiagnostics(uri);
  const actions = await client.codeActions(uri, found);
  await client.stop();
  return {
    words: [...found.map(wordsOf), ...actions.map(({ title }) => title)],
    facts: [
      found.map(({ code, range, severity }) => ({ code, range, severity })),
      actions.map(({ kind, edit }) => ({ kind, edit })),
    ],
  };
}

it('says the same in German, and in words that the client brings', async () => {
  const english = await lookIn({});
  expect(english.words.join('\n')).toContain('640 has no unit');
  const german = await lookIn({ locale: 'de-AT' });
  expect(german.words.join('\n')).toContain('640 hat keine Einheit');
  const brought = await lookIn({ locale: 'de', initializationOptions: { words: pseudoWords() } });
  expect(brought.words.join('\n')).toContain('⟦640 ');
  for (const { facts } of [german, brought]) expect(facts).toEqual(english.facts);
  const unknown = await lookIn({ locale: '../../etc', initializationOptions: { words: 7 } });
  expect(unknown.words).toEqual(english.words);
});
