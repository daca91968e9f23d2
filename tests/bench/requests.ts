import type { Position, Range } from 'vscode-languageserver/node';
import { EXAMPLE_FOLDER } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { randomFrom } from '../support/random.ts';
import { placesToType } from './machines.ts';
import { medianOf, percentileOf } from './measure.ts';

const MACHINE = uriOf('examples/gantry-router/bench.machine.yaml');
const WARM_UP = 5;
const PATIENCE = 60_000;

/** How long a kind of request takes while somebody types, in ms, and whether it ever said anything. */
export interface Answered {
  readonly method: string;
  readonly slowest: number;
  readonly usual: number;
  readonly said: boolean;
}

/**
 * Types a figure at seeded places, waits for its findings, and asks everything that editors ask of a cursor or a text:
 * the 95th percentile and the median of each.
 */
export async function measureRequests(text: string, rounds: number): Promise<readonly Answered[]> {
  const client = await startClient({ folder: EXAMPLE_FOLDER });
  client.open(MACHINE, text);
  await client.waitForDiagnostics(MACHINE, PATIENCE);
  const random = randomFrom(4);
  const taken = new Map<string, { times: number[]; said: boolean }>();
  for (let round = -WARM_UP; round < rounds; round++) {
    const places = placesToType(client.textOf(MACHINE));
    const typed = client.positionAt(MACHINE, random.oneOf(places));
    client.replace(MACHINE, { start: typed, end: typed }, String(1 + random.below(9)));
    await client.waitForDiagnostics(MACHINE, PATIENCE);
    // The part behind an arrow, but for the supply network, which cannot be renamed.
    const names = [...client.textOf(MACHINE).matchAll(/-> (?!mains)\w/g)].map(({ index }) => index + 3);
    const name = random.oneOf(names);
    for (const [method, params] of requestsAt(client, name)) {
      const from = performance.now();
      const answer = await client.request(method, params);
      const entry = taken.get(method) ?? { times: [], said: false };
      taken.set(method, entry);
      if (round < 0) continue;
      entry.times.push(performance.now() - from);
      entry.said ||= Array.isArray(answer) ? answer.length > 0 : answer !== null;
    }
  }
  await client.stop();
  return [...taken].map(([method, { times, said }]) => ({
    method,
    slowest: percentileOf(times, 95),
    usual: medianOf(times),
    said,
  }));
}

/** About as many lines as an editor shows at once. */
const SCREEN = 60;

function screenAround({ line }: Position): Range {
  const top = Math.max(0, line - SCREEN / 2);
  return { start: { line: top, character: 0 }, end: { line: top + SCREEN, character: 0 } };
}

function requestsAt(client: Client, offset: number): readonly (readonly [string, object])[] {
  const textDocument = { uri: MACHINE };
  const position = client.positionAt(MACHINE, offset);
  const at = { textDocument, position };
  return [
    ['textDocument/references', { ...at, context: { includeDeclaration: true } }],
    ['textDocument/documentHighlight', at],
    ['textDocument/definition', at],
    ['textDocument/typeDefinition', at],
    ['textDocument/prepareRename', at],
    ['textDocument/rename', { ...at, newName: 'renamed' }],
    ['textDocument/linkedEditingRange', at],
    ['textDocument/documentLink', { textDocument }],
    ['textDocument/foldingRange', { textDocument }],
    ['textDocument/selectionRange', { textDocument, positions: [position] }],
    ['textDocument/prepareCallHierarchy', at],
    ['textDocument/documentSymbol', { textDocument }],
    ['textDocument/inlayHint', { textDocument, range: screenAround(position) }],
    ['textDocument/semanticTokens/range', { textDocument, range: screenAround(position) }],
    [
      'textDocument/codeAction',
      { textDocument, range: { start: position, end: position }, context: { diagnostics: [] } },
    ],
    ['textDocument/codeLens', { textDocument }],
    ['textDocument/documentColor', { textDocument }],
    ['workspace/symbol', { query: 'drx' }],
  ];
}
