import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { wordsOf } from '../support/example.ts';
import { type Folder, openFolder } from '../support/folder.ts';
import { type Client, startClient } from '../support/lsp-client.ts';

/** What may lie where a sheet should be. Each is told in words at the part that names it, and nothing waits for it. */

const PATIENCE = 20_000; // ms; what is answered at all is answered long before

let folder: Folder;
let client: Client;
let count = 0;
const at = (name: string) => path.join(folder.path, 'work', name);

beforeAll(async () => {
  folder = openFolder({
    'outside.part.yaml': 'part: Secret\nclass: load\n',
    'work/plain.part.yaml': 'part: x\nclass: load\n',
  });
  fs.writeFileSync(at('sparse.part.yaml'), '');
  fs.truncateSync(at('sparse.part.yaml'), 1_000_000_000);
  fs.symlinkSync('/dev/zero', at('zero.part.yaml'));
  fs.symlinkSync('/dev/null', at('null.part.yaml'));
  fs.symlinkSync(path.join(folder.path, 'outside.part.yaml'), at('link-out.part.yaml'));
  fs.symlinkSync('loop-b.part.yaml', at('loop-a.part.yaml'));
  fs.symlinkSync('loop-a.part.yaml', at('loop-b.part.yaml'));
  fs.symlinkSync('nowhere.part.yaml', at('dangling.part.yaml'));
  fs.symlinkSync('/proc/self/environ', at('environ.part.yaml'));
  execFileSync('mkfifo', [at('pipe.part.yaml')]);
  fs.mkdirSync(at('folder.part.yaml'));
  fs.writeFileSync(at('nul.part.yaml'), 'part: a\0b\nclass: load\n');
  client = await startClient({ folder: path.join(folder.path, 'work') });
});
afterAll(async () => {
  await client.stop();
  folder.remove();
});

describe('what is no sheet is said to be none', () => {
  it.each<[name: string, state: string]>([
    ['sparse.part.yaml', 'too-large'],
    ['zero.part.yaml', 'outside'],
    ['null.part.yaml', 'outside'],
    ['environ.part.yaml', 'outside'],
    ['link-out.part.yaml', 'outside'],
    ['../outside.part.yaml', 'outside'],
    ['../../../../../../etc/passwd', 'outside'],
    ['/etc/passwd', 'outside'],
    ['file:///etc/passwd', 'missing'],
    ['loop-a.part.yaml', 'unreadable'],
    ['dangling.part.yaml', 'missing'],
    ['pipe.part.yaml', 'unreadable'],
    ['folder.part.yaml', 'unreadable'],
  ])('%s is %s', async (name, state) => {
    const uri = folder.uri(`work/m${++count}.machine.yaml`); // another each time: what is late is of another file
    client.open(uri, `machine: a\nparts:\n  p: { sheet: '${name}' }\n`);
    const found = (await client.waitForDiagnostics(uri, PATIENCE)).filter(
      ({ code }) => code === 'name/sheet-not-found',
    );
    client.close(uri);
    expect(found.map(({ range, data }) => [range.start.line, (data as { state?: string }).state])).toEqual([
      [2, state],
    ]);
    expect(found.map(wordsOf).join()).not.toMatch(/root:|Secret|PATH=/);
  });

  it('sheets that name one another, or themselves, are read once each and told of the key', async () => {
    fs.writeFileSync(at('one.part.yaml'), 'part: One\nclass: load\nsheet: two.part.yaml\n');
    fs.writeFileSync(at('two.part.yaml'), 'part: Two\nclass: load\nsheet: one.part.yaml\n');
    const uri = folder.uri('work/circle.machine.yaml');
    client.open(uri, 'machine: a\nparts:\n  p: { sheet: one.part.yaml }\n  q: { sheet: two.part.yaml }\n');
    const codes = (await client.waitForDiagnostics(uri, PATIENCE)).map(({ code }) => code);
    expect(codes).not.toContain('name/sheet-not-found');
    const sheet = folder.uri('work/one.part.yaml');
    client.open(sheet, fs.readFileSync(at('one.part.yaml'), 'utf8'));
    const ofSheet = await client.waitForDiagnostics(sheet, PATIENCE);
    expect(ofSheet.map(({ code, range }) => [code, range.start.line])).toContainEqual([
      'shape/unknown-key',
      2,
    ]);
    for (const each of [uri, sheet]) client.close(each);
  });

  it('a sheet that is open and too long is too large for its machine as well', async () => {
    const sheet = folder.uri('work/long.part.yaml');
    client.open(sheet, `part: ${'x'.repeat(2_000_000)}\n`);
    const uri = folder.uri('work/uses-long.machine.yaml');
    client.open(uri, 'machine: a\nparts:\n  p: { sheet: long.part.yaml }\n');
    const found = await client.waitForDiagnostics(uri, PATIENCE);
    expect(found.map(({ code, data }) => [code, (data as { state?: string }).state])).toEqual([
      ['name/sheet-not-found', 'too-large'],
    ]);
    const ofSheet = await client.waitForDiagnostics(sheet, PATIENCE);
    expect(ofSheet.map(({ code, range }) => [code, range.start.line])).toEqual([['shape/too-large', 0]]);
    for (const each of [uri, sheet]) client.close(each);
  });

  it('a name with a line end in it is a name like any other', async () => {
    fs.writeFileSync(at('two\nlines.part.yaml'), 'part: x\nclass: load\n');
    const uri = folder.uri('work/a.machine.yaml');
    client.open(uri, 'machine: a\nparts:\n  p: { sheet: "two\\nlines.part.yaml" }\n');
    const codes = (await client.waitForDiagnostics(uri, PATIENCE)).map(({ code }) => code);
    client.close(uri);
    expect(codes).not.toContain('name/sheet-not-found');
    expect(client.process.exitCode).toBeNull();
  });
});
