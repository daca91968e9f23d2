import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ENCODINGS, type Encoding, positionIn } from '../support/encodings.ts';
import { readExample } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

/**
 * Whatever is asked, the places in the answers are the same in every encoding: the example has astral characters put
 * before its names, and the positions of all answers are turned back into offsets.
 */
const MACHINE = uriOf('examples/gantry-router/encodings.machine.yaml');
const TEXT = readExample()
  .replaceAll('{ sheet: generic/', '{ about: 🛠é, sheet: generic/')
  .replaceAll('{ link: ', '{ label: "🎠", link: ')
  .replace('travel:       620 mm', 'travel:       620')
  .replaceAll(/, label: \d+ \}/g, ' }');

const offsets = new Map<Encoding, Map<string, number>>();
for (const encoding of ENCODINGS) {
  const byPosition = new Map<string, number>();
  for (let offset = 0, line = 0, from = 0; offset <= TEXT.length; offset++) {
    if (TEXT[offset - 1] === '\n') [line, from] = [line + 1, offset];
    // In the middle of a character there is no position.
    if (/[\ud800-\udbff]/.test(TEXT[offset - 1] ?? '')) continue;
    const { character } = positionIn(TEXT.slice(from, offset), offset - from, encoding);
    byPosition.set(`${line}:${character}`, offset);
  }
  offsets.set(encoding, byPosition);
}

const clients = new Map<Encoding, Client>();
beforeAll(async () => {
  for (const encoding of ENCODINGS) {
    const client = await startClient({
      folder: new URL('.', MACHINE).pathname,
      capabilities: { general: { positionEncodings: [encoding] } },
    });
    clients.set(encoding, client);
    client.open(MACHINE, TEXT);
    await client.waitForDiagnostics(MACHINE);
  }
});
afterAll(() => Promise.all([...clients.values()].map((client) => client.stop())));

/** Every position anywhere in an answer about the machine, as an offset. */
function offsetsIn(answer: unknown, encoding: Encoding): number[] {
  if (typeof answer !== 'object' || answer === null) return [];
  const { line, character, uri, targetUri, data } = answer as Record<string, unknown>;
  if (Array.isArray(data)) return offsetsIn(positionsOfTokens(data), encoding);
  if (typeof line === 'number' && typeof character === 'number') {
    const offset = offsets.get(encoding)?.get(`${line}:${character}`);
    if (offset === undefined) throw new Error(`no such position: ${line}:${character}`);
    return [offset];
  }
  const other = uri ?? targetUri;
  if (typeof other === 'string' && other !== MACHINE) return [];
  return Object.values(answer).flatMap((value) => offsetsIn(value, encoding));
}

/** Where tokens begin and end: five numbers each, the first two counted from the token before. */
function positionsOfTokens(data: readonly number[]): { line: number; character: number }[] {
  let [line, character] = [0, 0];
  return Array.from({ length: data.length / 5 }, (_, index) => {
    const [down = 0, right = 0, length = 0] = data.slice(index * 5, index * 5 + 3);
    [line, character] = [line + down, down > 0 ? right : character + right];
    return [
      { line, character },
      { line, character: character + length },
    ];
  }).flat();
}

/** What is asked, from the place of a word on. */
function paramsAt(word: string, encoding: Encoding, shift: number): Record<string, object> {
  const textDocument = { uri: MACHINE };
  const position = positionIn(TEXT, TEXT.indexOf(word) + shift, encoding);
  const end = positionIn(TEXT, TEXT.length, encoding);
  const whole = { start: { line: 0, character: 0 }, end };
  const at = { textDocument, position };
  return {
    'textDocument/hover': at,
    'textDocument/completion': at,
    'textDocument/definition': at,
    'textDocument/references': { ...at, context: { includeDeclaration: true } },
    'textDocument/documentHighlight': at,
    'textDocument/linkedEditingRange': at,
    'textDocument/prepareCallHierarchy': at,
    'textDocument/selectionRange': { textDocument, positions: [position] },
    'textDocument/documentSymbol': { textDocument },
    'textDocument/documentLink': { textDocument },
    'textDocument/inlayHint': { textDocument, range: whole },
    'textDocument/documentColor': { textDocument },
    'textDocument/typeDefinition': at,
    'textDocument/prepareRename': at,
    'textDocument/rename': { ...at, newName: 'renamed' },
    'textDocument/codeLens': { textDocument },
    'textDocument/foldingRange': { textDocument },
    'textDocument/diagnostic': { textDocument },
    'workspace/diagnostic': { previousResultIds: [] },
    'workspace/symbol': { query: 'drx' },
    'textDocument/semanticTokens/full': { textDocument },
    'textDocument/semanticTokens/range': { textDocument, range: whole },
    'textDocument/rangeFormatting': {
      textDocument,
      range: whole,
      options: { tabSize: 2, insertSpaces: true },
    },
    'textDocument/onTypeFormatting': { ...at, ch: '}', options: { tabSize: 2, insertSpaces: true } },
    'textDocument/formatting': { textDocument, options: { tabSize: 2, insertSpaces: true } },
    'textDocument/codeAction': {
      textDocument,
      range: { start: position, end: position },
      context: { diagnostics: [] },
    },
  };
}

describe.each([
  ['a part', 'drive-x.PUL-', 3],
  ['a terminal', 'drive-x.PUL-', 9],
  ['a figure', '620\n', 2],
  ['a sheet', 'generic/microstep-drive-50v', 8],
])('at %s', (_, word, shift) => {
  it.each(Object.keys(paramsAt(word, 'utf-16', shift)))('%s', async (method) => {
    const found = new Map<Encoding, number[]>();
    for (const [encoding, client] of clients) {
      // Why a name cannot be changed is an answer as well, without places.
      const asked = client.request(method, paramsAt(word, encoding, shift)[method]);
      const answer = await asked.catch((refusal: Error) => refusal.message);
      found.set(encoding, offsetsIn(answer, encoding));
    }
    expect(found.get('utf-8')).toEqual(found.get('utf-16'));
    expect(found.get('utf-32')).toEqual(found.get('utf-16'));
  });
});

/** Requests that are called otherwise than the capability for them. */
const CALLED: Readonly<Record<string, string>> = {
  documentFormatting: 'formatting',
  documentRangeFormatting: 'rangeFormatting',
  documentOnTypeFormatting: 'onTypeFormatting',
  workspaceSymbol: 'workspace/symbol',
  color: 'documentColor',
  callHierarchy: 'prepareCallHierarchy',
};
/** What is no request, or answers without places. */
const WITHOUT_PLACES = ['positionEncoding', 'textDocumentSync', 'executeCommand', 'workspace'];

it('everything that the server can do is asked for', () => {
  const [first] = clients.values();
  const asked = Object.keys(paramsAt('drive-x.PUL-', 'utf-16', 3));
  const can = Object.entries(first?.initialized.capabilities ?? {}).filter(([, value]) => value);
  const missed = can
    .map(([capability]) => capability.replace(/Provider$/, ''))
    .filter((name) => !WITHOUT_PLACES.includes(name))
    .filter((name) => !asked.some((method) => method.includes(CALLED[name] ?? name)));
  expect(missed).toEqual([]);
});

it('findings, and the positions differ at all', async () => {
  const published = [...clients].map(([encoding, client]) => {
    const { diagnostics } = client.published.findLast(({ uri }) => uri === MACHINE) ?? { diagnostics: [] };
    return {
      places: offsetsIn(diagnostics, encoding),
      raw: JSON.stringify(diagnostics.map(({ range }) => range)),
    };
  });
  expect(published[0]?.places.length).toBeGreaterThan(2);
  expect(published[1]?.places).toEqual(published[0]?.places);
  expect(published[2]?.places).toEqual(published[0]?.places);
  const hints = await Promise.all(
    [...clients.values()].map((client) =>
      client.request('textDocument/documentLink', { textDocument: { uri: MACHINE } }),
    ),
  );
  expect(new Set(hints.map((each) => JSON.stringify(each))).size).toBe(3);
});
