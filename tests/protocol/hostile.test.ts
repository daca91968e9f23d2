import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { PLACE_OF, SUMMARY_CHANGES, THING_AT } from '../../server/protocol/private.ts';
import { faultsOf, lineOf, readExample, wordsOf } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { randomFrom } from '../support/random.ts';

const GOOD = uriOf('examples/gantry-router/gantry-router.machine.yaml');
const REQUEST_FAILED = -32803;
const PATIENCE = 10_000; // ms; far beyond any answer that is not a hang, on two busy cores

let client: Client;
/** Starts anew: at first, and after a text that hung or ended the server, so that each text is judged by itself. */
async function start(): Promise<void> {
  client = await startClient();
  client.open(GOOD, readExample());
  await client.waitForDiagnostics(GOOD);
}
beforeAll(start);
afterEach(async ({ task }) => {
  if (task.result?.state !== 'fail') return;
  client.process.kill('SIGKILL');
  await start();
});
afterAll(() => client.stop());

let count = 0;
const freshUri = () => uriOf(`examples/gantry-router/hostile-${++count}.machine.yaml`);

/** Opens a text and asks everything of it; resolves to its findings' codes. Fails when an answer takes too long. */
async function ask(text: string, uri = freshUri()): Promise<readonly string[]> {
  client.open(uri, text);
  const diagnostics = await client.waitForDiagnostics(uri, PATIENCE);
  const position = { line: 1, character: 5 };
  const range = { start: { line: 0, character: 0 }, end: { line: 200, character: 0 } };
  const textDocument = { uri };
  const options = { tabSize: 2, insertSpaces: true };
  for (const [method, params] of [
    ['textDocument/hover', { textDocument, position }],
    ['textDocument/completion', { textDocument, position }],
    ['textDocument/inlayHint', { textDocument, range }],
    ['textDocument/codeAction', { textDocument, range, context: { diagnostics: diagnostics.slice(0, 5) } }],
    ['textDocument/documentSymbol', { textDocument }],
    ['textDocument/definition', { textDocument, position }],
    ['textDocument/typeDefinition', { textDocument, position }],
    ['textDocument/references', { textDocument, position, context: { includeDeclaration: true } }],
    ['textDocument/documentHighlight', { textDocument, position }],
    ['textDocument/linkedEditingRange', { textDocument, position }],
    ['textDocument/prepareCallHierarchy', { textDocument, position }],
    ['textDocument/foldingRange', { textDocument }],
    ['textDocument/selectionRange', { textDocument, positions: [position] }],
    ['textDocument/documentLink', { textDocument }],
    ['textDocument/codeLens', { textDocument }],
    ['textDocument/documentColor', { textDocument }],
    ['textDocument/semanticTokens/full', { textDocument }],
    ['textDocument/formatting', { textDocument, options }],
    ['textDocument/rangeFormatting', { textDocument, range, options }],
    ['textDocument/onTypeFormatting', { textDocument, position, ch: '\n', options }],
    ['textDocument/diagnostic', { textDocument }],
    ['workspace/symbol', { query: 'a' }],
    ['workspace/willRenameFiles', { files: [{ oldUri: uri, newUri: `${uri}.moved` }] }],
    [SUMMARY_CHANGES, { uri, have: {} }],
    [THING_AT, { uri, position }],
    [PLACE_OF, { uri, id: 'part:__proto__' }],
  ] as const) {
    await within(client.request(method, params), PATIENCE, method);
  }
  // A name that cannot be changed is refused with a reason, which is an answer too.
  const renaming = client.request('textDocument/rename', { textDocument, position, newName: 'renamed' });
  await within(
    renaming.catch((error: { code: number }) => expect(error.code).toBe(REQUEST_FAILED)),
    PATIENCE,
    'rename',
  );
  client.close(uri);
  expect(client.process.exitCode, client.errors()).toBeNull();
  return diagnostics.map(({ code }) => String(code));
}

function within<T>(promise: Promise<T>, milliseconds: number, what: string): Promise<T> {
  return Promise.race([
    promise,
    new Promise<never>((_, reject) =>
      setTimeout(() => reject(new Error(`${what}: no answer in ${milliseconds} ms`)), milliseconds).unref(),
    ),
  ]);
}

const nested = (open: string, close: string, depth: number) =>
  `machine: ${open.repeat(depth)}1${close.repeat(depth)}\n`;
const nestedMap = (depth: number) => Array.from({ length: depth }, (_, i) => `${' '.repeat(i)}a:`).join('\n');
const partsOf = (count: number, facts: string) =>
  `parts:\n${Array.from({ length: count }, (_, i) => `  p${i}: ${facts}\n`).join('')}`;
const chain = (count: number) =>
  Array.from({ length: count - 1 }, (_, i) => `  - p${i}.C1 -> p${i + 1}.C2\n`).join('');
const bomb = [
  'a: &a [x, x, x, x, x, x, x, x, x]',
  ...'bcdefghi'
    .split('')
    .map((name, i) => `${name}: &${name} [${Array(9).fill(`*${'abcdefghi'[i]}`).join(', ')}]`),
].join('\n');

describe('hostile texts are answered, and the server lives on', () => {
  it.each<[string, string]>([
    ['an empty text', ''],
    ['a lone newline', '\n'],
    ['a lone byte order mark', '\ufeff'],
    ['only a comment', '# nothing yet\n'],
    ['a scalar', '42'],
    ['a list', '- a\n- b\n'],
    ['NUL characters', 'machine: a\0b\nparts:\0 {}\n'],
    [
      'control characters',
      Array.from({ length: 32 }, (_, i) => `k${i}: ${String.fromCharCode(i)}`).join('\n'),
    ],
    ['lone surrogates', 'machine: \ud800 x\nparts: { \udfff: { sheet: \ud83d } }\n'],
    ['one line of a megabyte', `machine: ${'x'.repeat(1_000_000)}\n`],
    ['a megabyte of flow items', `parts: [${'a, '.repeat(330_000)}]\n`],
    ['a megabyte of one link', `wiring:\n  - a.b -> ${'c.d, '.repeat(200_000)}e.f\n`],
    ['10,000 nested brackets', nested('[', ']', 10_000)],
    ['10,000 nested braces', nested('{a: ', '}', 10_000)],
    ['10,000 lists in lists', `${'- '.repeat(10_000)}x\n`],
    ['1,000 nested maps', nestedMap(1000)],
    ['20,000 keys in one map', partsOf(20_000, '{ sheet: generic/roller-switch }')],
    ['100,000 parts', partsOf(100_000, '{ sheet: generic/roller-switch }')],
    ['40,000 parts with nothing in them', partsOf(40_000, '{}')],
    ['2,500 parts in a chain', `${partsOf(2500, '{ sheet: generic/roller-switch }')}wiring:\n${chain(2500)}`],
    ['one line of ten megabytes', `machine: ${'x'.repeat(10_000_000)}\n`],
    ['ten megabytes of comments', '# nothing\n'.repeat(1_000_000)],
    ['a megabyte of line ends', '\n'.repeat(999_999)],
    ['a megabyte of blanks', ' '.repeat(999_999)],
    ['20,000 repeated keys', 'machine: a\n'.repeat(20_000)],
    ['an alias bomb', bomb],
    ['an alias of itself', 'parts: &a { b: *a }\n'],
    ['an alias of nothing', 'machine: *nothing\n'],
    ['merge keys in a circle', 'parts: &p\n  a: &a { <<: *b }\n  b: &b { <<: *a }\n'],
    ['several documents', 'machine: a\n---\nmachine: b\n...\n%YAML 1.1\n---\nc: d\n'],
    ['an open quote', 'machine: "never closed\nparts: {}\n'],
    ['an open bracket', 'parts: { a: [1, 2\nwiring:\n  - x\n'],
    [
      'a binary file',
      Buffer.from(Array.from({ length: 20_000 }, (_, i) => (i * 7919) % 256)).toString('latin1'),
    ],
    [
      'names of the language itself',
      'parts: { __proto__: { sheet: constructor }, constructor: {}, toString: 1, hasOwnProperty: { set: { __proto__: 1 } } }\nwiring: [__proto__.constructor -> toString.valueOf]\naxes: { __proto__: { drive: constructor } }\n',
    ],
    ['tags', 'machine: !!js/function "x"\nparts: !!set { a, b }\nrevision: !!binary "AA=="\n'],
    ['lone carriage returns', 'machine: a\rparts: {}\rwiring: []\r'],
    [
      'endless numbers',
      `revision: ${'9'.repeat(5000)}\naxes: { X: { travel: 1e999999 mm, mass: -0 kg, feed: .inf mm/min } }\n`,
    ],
  ])(
    '%s',
    async (_, text) => {
      await ask(text);
    },
    30_000,
  );

  it('broken links in every spelling, each a finding at its place', async () => {
    const links = [
      '->',
      'panel.PX ->',
      '-> panel.PX',
      'panel.PX',
      'panel -> drive-x',
      'panel. -> drive-x.PUL-',
      '.PX -> drive-x.PUL-',
      'panel.PX -> drive-x.PUL- -> drive-x.DIR-',
      'panel.PX - > drive-x.PUL-',
      'panel.PX => drive-x.PUL-',
      'panel.PX → drive-x.PUL-',
      'panel.PX -> drive-x.PUL-,',
      'panel.PX -> , drive-x.PUL-',
      'panel..PX -> drive-x.PUL-',
      'panel.PX.PX -> drive-x.PUL-',
      'nobody.PX -> drive-x.PUL-',
      'panel.NO -> drive-x.PUL-',
      'panel.PX -> drive-x.PUL- XX YY ZZ',
      '"panel.PX -> "',
      '7',
      'null',
      '[]',
      '{}',
      '{ link: }',
      '{ link: [a, b] }',
      '{ cable: W9 }',
      '{ cable: W9, links: panel.PX -> drive-x.PUL- }',
    ];
    const before = readExample()
      .split('\n')
      .findIndex((line) => line.startsWith('wiring:'));
    for (const link of links) {
      const lines = readExample().split('\n');
      lines.splice(before + 1, 0, `  - ${link}`);
      const uri = freshUri();
      client.open(uri, lines.join('\n'));
      const faults = faultsOf(await client.waitForDiagnostics(uri, PATIENCE));
      const here = faults.filter(({ range }) => range.start.line === before + 1);
      expect(here.length, `${link}: ${faults.map(lineOf).join(' | ') || 'no finding'}`).toBeGreaterThan(0);
      client.close(uri);
    }
  }, 60_000);

  it('conflict markers as one finding', async () => {
    const text = readExample().replace(
      'revision: 7\n',
      '<<<<<<< ours\nrevision: 7\n=======\nrevision: 8\n>>>>>>> theirs\n',
    );
    const codes = await ask(text);
    expect(codes.filter((code) => code.startsWith('yaml/'))).toEqual(['yaml/conflict-markers']);
  });

  it('a duplicate key, a tab and an unresolved alias, each by its own finding', async () => {
    expect(await ask('machine: a\nmachine: b\n')).toContain('yaml/duplicate-key');
    expect(await ask('machine: a\nparts:\n\tb: { sheet: generic/roller-switch }\n')).toContain(
      'yaml/tab-indentation',
    );
    expect((await ask('machine: *nothing\n')).some((code) => /^yaml\/.*alias/.test(code))).toBe(true);
    expect((await ask(bomb)).some((code) => /^yaml\/.*alias/.test(code))).toBe(true);
  });

  it('sheets that are missing, outside the workspace, a folder, or too large', async () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-sheets-'));
    try {
      fs.mkdirSync(path.join(folder, 'work/folder.part.yaml'), { recursive: true });
      fs.writeFileSync(path.join(folder, 'outside.part.yaml'), 'part: x\nclass: switch\n');
      fs.writeFileSync(path.join(folder, 'work/huge.part.yaml'), '');
      fs.truncateSync(path.join(folder, 'work/huge.part.yaml'), 50_000_000);
      fs.writeFileSync(path.join(folder, 'work/itself.part.yaml'), 'part: x\nsheet: itself.part.yaml\n');
      const other = await startClient({ folder: path.join(folder, 'work') });
      const uri = new URL(`file://${folder}/work/a.machine.yaml`).href;
      const sheets = [
        'missing.part.yaml',
        '../outside.part.yaml',
        '/etc/passwd',
        'folder.part.yaml',
        'huge.part.yaml',
        'itself.part.yaml',
        'generic/no-such-part',
        'https://example.org/a.part.yaml',
        '\\\\host\\share\\a.part.yaml',
      ];
      other.open(
        uri,
        `machine: a\nparts:\n${sheets.map((sheet, i) => `  p${i}: { sheet: '${sheet}' }`).join('\n')}\n`,
      );
      const diagnostics = faultsOf(await other.waitForDiagnostics(uri, PATIENCE));
      for (const [i, sheet] of sheets.entries()) {
        if (sheet === 'itself.part.yaml') continue; // its fault is in the sheet, not in the machine
        expect(diagnostics.filter(({ range }) => range.start.line === i + 2).length, sheet).toBe(1);
      }
      expect(diagnostics.map(wordsOf).join()).not.toContain('root:');
      await other.stop();
    } finally {
      fs.rmSync(folder, { recursive: true, force: true });
    }
  });

  it('200 random mutations of the example', async () => {
    const random = randomFrom(7);
    const pieces = [
      '',
      '\0',
      '\ufeff',
      '{',
      '}',
      '[',
      ']',
      ':',
      '- ',
      '&a',
      '*a',
      '"',
      "'",
      '|',
      '>',
      '\n',
      '\r',
      '\t',
      '#',
      '<<: ',
      '->',
      '🛠',
      '\ud800',
      '%',
      '---\n',
    ];
    const uri = freshUri();
    client.open(uri, readExample());
    for (let round = 0; round < 200; round++) {
      const lines = client.textOf(uri).split('\n');
      const line = random.below(lines.length);
      const character = random.below((lines[line]?.length ?? 0) + 1);
      const range = { start: { line, character }, end: { line, character: character + random.below(6) } };
      client.replace(uri, range, random.oneOf(pieces));
      if (round % 10 === 9) await client.waitForDiagnostics(uri, PATIENCE);
    }
    client.close(uri);
    expect(client.process.exitCode).toBeNull();
  }, 60_000);

  it('and afterwards the example is what it was', async () => {
    const uri = uriOf('examples/gantry-router/afterwards.machine.yaml');
    client.open(uri, readExample());
    expect(faultsOf(await client.waitForDiagnostics(uri, PATIENCE)).map(lineOf)).toEqual([]);
    expect(client.notified.filter(({ method }) => method === 'window/showMessage')).toEqual([]);
  });
});
