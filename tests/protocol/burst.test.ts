import { afterEach, expect, it } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver/node';
import { makeMachine } from '../bench/machines.ts';
import { EXAMPLE_FOLDER } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

/** Somebody leans on a key: 200 changes at 15 ms, each with the questions that an editor asks after it. */

const MACHINE = uriOf('examples/gantry-router/burst.machine.yaml');
const CHANGES = 200;
const EVERY = 15; // ms
const PATIENCE = 20_000;
const REQUEST_CANCELLED = -32800;

let client: Client;
afterEach(() => client.stop());

it('builds up no queue: superseded work is left out, and the last state is published next', {
  timeout: 3 * PATIENCE,
}, async () => {
  client = await startClient({ folder: EXAMPLE_FOLDER });
  client.open(MACHINE, makeMachine(3000));
  await client.waitForDiagnostics(MACHINE, PATIENCE);
  const start = client.placeOf(MACHINE, 'machine: ', 'machine: '.length);
  const published = () => client.published.filter(({ uri }) => uri === MACHINE);
  const before = published().length;
  const answers: Promise<unknown>[] = [];
  let last: CancellationTokenSource | undefined;
  for (let change = 0; change < CHANGES; change++) {
    client.replace(MACHINE, { start, end: start }, 'x');
    last?.cancel();
    last = new CancellationTokenSource();
    const asked = client.connection.sendRequest(
      'textDocument/hover',
      { textDocument: { uri: MACHINE }, position: start },
      last.token,
    );
    answers.push(
      asked.then(
        () => 'answered',
        (error: { code: number }) => error.code,
      ),
    );
    await new Promise((done) => setTimeout(done, EVERY));
  }
  const atLastKey = published().length;
  await client.waitForDiagnostics(MACHINE, PATIENCE);
  const versions = published()
    .slice(before)
    .map(({ version = 0 }) => version);
  // What was being computed when the last key came may still come; after it, the last state alone.
  expect(published().length - atLastKey).toBeLessThanOrEqual(2);
  expect(versions.at(-1)).toBe(client.versionOf(MACHINE));
  expect(versions).toEqual(versions.toSorted((a, b) => a - b));
  expect(versions.length).toBeLessThanOrEqual(CHANGES);
  for (const answer of await Promise.all(answers)) expect([REQUEST_CANCELLED, 'answered']).toContain(answer);
  expect(client.notified.filter(({ method }) => method === 'window/logMessage')).toEqual([]);
});
