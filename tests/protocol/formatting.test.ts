import { spawnSync } from 'node:child_process';
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { TextEdit } from 'vscode-languageserver/node';
import { type Client, ROOT, startClient, uriOf } from '../support/lsp-client.ts';

const BEFORE =
  'machine:  A lathe 🙂\r\nparts:\r\n  psu: {sheet: generic/supply-24v}\r\n  drive-x: { sheet:  generic/microstep-drive-50v }  # 🙂\r\n';
const AFTER =
  'machine: A lathe 🙂\r\nparts:\r\n  psu:     { sheet: generic/supply-24v }\r\n  drive-x: { sheet: generic/microstep-drive-50v }  # 🙂\r\n';

describe('formatting over the protocol', () => {
  let client: Client;
  const uri = uriOf('examples/formatted.machine.yaml');
  beforeAll(async () => {
    client = await startClient({ pulls: true });
  });
  afterAll(() => client.stop());

  async function apply(method: string, more: object, text: string): Promise<string> {
    client.open(uri, text);
    const options = { tabSize: 2, insertSpaces: true };
    const edits = await client.request<TextEdit[]>(method, { textDocument: { uri }, options, ...more });
    client.applyEdit({ changes: { [uri]: edits } });
    const after = client.textOf(uri);
    client.close(uri);
    return after;
  }

  it('lays out a document in its own line ends', async () => {
    expect(await apply('textDocument/formatting', {}, BEFORE)).toBe(AFTER);
  });

  it('finds nothing to do the second time', async () => {
    expect(await apply('textDocument/formatting', {}, AFTER)).toBe(AFTER);
  });

  it('lays out the lines that are asked for', async () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 3 } };
    const [first = '', ...others] = BEFORE.split('\r\n');
    const expected = [first.replace('  ', ' '), ...others].join('\r\n');
    expect(await apply('textDocument/rangeFormatting', { range }, BEFORE)).toBe(expected);
  });

  it('lays out what a bracket closes', async () => {
    const position = { line: 2, character: BEFORE.split('\r\n')[2]?.length ?? 0 };
    const after = await apply('textDocument/onTypeFormatting', { position, ch: '}' }, BEFORE);
    expect(after.split('\r\n').slice(2)).toEqual(AFTER.split('\r\n').slice(2));
  });
});

describe('fettle fmt', () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-fmt-'));
  const file = path.join(folder, 'x.machine.yaml');
  const run = (...args: string[]) =>
    spawnSync(process.execPath, [path.join(ROOT, 'dist/cli.cjs'), 'fmt', ...args, file], {
      encoding: 'utf8',
    });
  afterAll(() => fs.rmSync(folder, { recursive: true }));

  it('names what would change, and changes nothing, with --check', () => {
    fs.writeFileSync(file, `\uFEFF${BEFORE}`);
    const { status, stdout } = run('--check');
    expect([status, stdout]).toEqual([1, `${file}\n`]);
    expect(fs.readFileSync(file, 'utf8')).toBe(`\uFEFF${BEFORE}`);
  });

  it('writes the file, byte order mark and line ends kept, and is content then', () => {
    expect(run().status).toBe(0);
    expect(fs.readFileSync(file, 'utf8')).toBe(`\uFEFF${AFTER}`);
    expect(run('--check').status).toBe(0);
  });

  it('leaves a file alone that is no UTF-8', () => {
    const bytes = Buffer.concat([Buffer.from('machine:  a'), Buffer.from([0xff, 0xfe, 0x0a])]);
    fs.writeFileSync(file, bytes);
    expect(run().status).toBe(2);
    expect(fs.readFileSync(file).equals(bytes)).toBe(true);
  });
});
