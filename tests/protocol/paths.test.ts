import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DocumentLink, WorkspaceEdit } from 'vscode-languageserver';
import { type Folder, openFolder } from '../support/folder.ts';
import { type Client, editsOf, startClient } from '../support/lsp-client.ts';

/** What lies outside the folder that is open is not read by any way, and nobody learns whether it is there. */

let folder: Folder;
let client: Client;
beforeAll(async () => {
  folder = openFolder({
    'secret.part.yaml': 'part: Secret\nclass: load\n',
    'other/.fettle.yaml': 'about: Secret\n',
    'other/secret.part.yaml': 'part: Secret\nclass: load\n',
    'work/lib/own.part.yaml': 'part: Own\nclass: load\n',
    'work/libelle/own.part.yaml': 'part: Own\nclass: load\n',
    'work/a.machine.yaml': 'machine: a\nparts:\n  p: { sheet: lib/own.part.yaml }\n',
  });
  fs.symlinkSync(path.join(folder.path, 'other'), path.join(folder.path, 'work/way-out'));
  client = await startClient({ folder: path.join(folder.path, 'work') });
});
afterAll(async () => {
  await client.stop();
  folder.remove();
});

/** The states of the sheets that are not found, as findings tell them. */
async function statesOf(uri: string, text: string): Promise<unknown[]> {
  client.open(uri, text);
  const found = await client.waitForDiagnostics(uri);
  const hover = await client.hover(uri, client.placeOf(uri, '  p:', 2));
  client.close(uri);
  expect(JSON.stringify([found, hover])).not.toContain('Secret');
  return found
    .filter(({ code }) => code === 'name/sheet-not-found')
    .map(({ data }) => (data as { state?: string }).state);
}

describe('sheets', () => {
  it.each([
    ['generic/../../secret.part.yaml', 'outside'],
    ['lib/../../secret.part.yaml', 'outside'],
    ['lib//..//..//secret.part.yaml', 'outside'],
    ['lib\\..\\..\\secret.part.yaml', 'outside'],
    ['%2e%2e/secret.part.yaml', 'missing'],
    ['way-out/secret.part.yaml', 'outside'],
    ['../other/.fettle.yaml', 'outside'],
    ['../nowhere/.fettle.yaml', 'outside'],
    ['file://localhost/etc/passwd', 'missing'],
    ['//host/share/a.part.yaml', 'outside'],
    ['C:\\a.part.yaml', 'missing'],
  ])('%s is %s', async (sheet, state) => {
    const uri = folder.uri(`work/${encodeURIComponent(sheet)}.machine.yaml`);
    expect(await statesOf(uri, `machine: a\nparts:\n  p: { sheet: '${sheet}' }\n`)).toEqual([state]);
  });
});

describe('folders that a project names', () => {
  it.each([
    '..',
    '../..',
    '../other',
    'way-out',
    '/',
    'lib/../..',
    '\\\\host\\share',
    '%2e%2e',
    'generic/..',
    '',
  ])('%j lead nowhere outside', async (sheets) => {
    const project = folder.uri('work/.fettle.yaml');
    client.open(project, `sheets: ['${sheets}']\n`, 'fettle-project');
    const uri = folder.uri(`work/${encodeURIComponent(sheets)}-project.machine.yaml`);
    expect(await statesOf(uri, 'machine: a\nparts:\n  p: { sheet: secret.part.yaml }\n')).toEqual([
      'missing',
    ]);
    client.close(project);
  });

  it('inside lead to their sheets, and links do too', async () => {
    const project = folder.uri('work/.fettle.yaml');
    client.open(project, 'sheets: [lib]\n', 'fettle-project');
    const uri = folder.uri('work/inside.machine.yaml');
    const text = 'machine: a\nparts:\n  p: { sheet: own.part.yaml }\n';
    expect(await statesOf(uri, text)).toEqual([]);
    client.open(uri, text);
    const [link] = await client.request<DocumentLink[]>('textDocument/documentLink', {
      textDocument: { uri },
    });
    const resolved = await client.request<DocumentLink>('documentLink/resolve', link);
    expect(resolved.target).toBe(folder.uri('work/lib/own.part.yaml'));
    client.close(uri);
    client.close(project);
  });
});

describe('links that nobody gave', () => {
  const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } };
  const resolve = (data: unknown) => client.request<DocumentLink>('documentLink/resolve', { range, data });

  it.each([
    'secret.part.yaml',
    'nowhere.part.yaml',
    'other/.fettle.yaml',
    'nowhere/.fettle.yaml',
    'work/%2e%2e/secret.part.yaml',
    'work/..%2Fsecret.part.yaml',
    'work/lib/../../other/.fettle.yaml',
    'work/way-out/secret.part.yaml',
    'work/way-out/.fettle.yaml',
    'workshop/.fettle.yaml',
  ])('%s get no target, whether it is there or not', async (name) => {
    expect(await resolve(`${folder.uri('').replace(/\/$/, '')}/${name}`)).toEqual({
      range,
      data: expect.anything(),
    });
  });

  it.each([
    '',
    'a b:c',
    'file:////etc/passwd',
    'file://host/etc/passwd',
    '\ud800',
    7,
    null,
    { uri: 'file:///' },
  ])('with %j get none either', async (data) => {
    expect((await resolve(data)).target).toBeUndefined();
    expect(client.notified.filter(({ method }) => method === 'window/logMessage')).toEqual([]);
  });

  it.each([
    (uri: string) => uri,
    (uri: string) => uri.replace('file:', 'FILE:'),
    (uri: string) => uri.replace('own', '%6Fwn'),
    (uri: string) => uri.replace('file://', 'file://localhost'),
    (uri: string) => uri.replace('lib/', 'lib//'),
    (uri: string) => uri.replace('lib/', 'libelle/../lib/'),
  ])('to a sheet inside are opened, spelled in any way (%#)', async (spell) => {
    const inside = folder.uri('work/lib/own.part.yaml');
    expect((await resolve(spell(inside))).target).toBe(inside);
  });
});

describe('moved files', () => {
  const move = async (oldUri: string, newUri: string) => {
    const edit = await client.request<WorkspaceEdit | null>('workspace/willRenameFiles', {
      files: [{ oldUri, newUri }],
    });
    return editsOf(edit ?? undefined).map(([uri, edits]) => [uri, edits.map(({ newText }) => newText)]);
  };
  const machine = () => folder.uri('work/a.machine.yaml');

  it.each([
    ['a folder', 'lib', 'sheets', 'sheets/own.part.yaml'],
    ['a folder with a slash at its end', 'lib/', 'sheets/', 'sheets/own.part.yaml'],
    ['a folder with a slash at one end', 'lib', 'sheets/', 'sheets/own.part.yaml'],
    ['a folder spelled with escapes', '%6Cib/', 'sheets', 'sheets/own.part.yaml'],
    ['a folder by a way around', 'libelle/../lib', 'sheets', 'sheets/own.part.yaml'],
    ['a sheet', 'lib/own.part.yaml', 'mine.part.yaml', 'mine.part.yaml'],
    ['a sheet, out of the folder that is open', 'lib/own.part.yaml', '../own.part.yaml', '../own.part.yaml'],
  ])('%s', async (_, from, to, written) => {
    expect(await move(`${folder.uri('work')}/${from}`, `${folder.uri('work')}/${to}`)).toEqual([
      [machine(), [written]],
    ]);
  });

  it.each([
    ['a folder that begins with the same letters', 'li', 'sheets'],
    ['a folder of another name', 'libelle/', 'sheets/'],
    ['a folder that nothing names', 'nowhere', 'sheets'],
  ])('%s changes nothing', async (_, from, to) => {
    expect(await move(`${folder.uri('work')}/${from}`, `${folder.uri('work')}/${to}`)).toEqual([]);
  });

  it.each(['', 'a b:c', 'file:////x', '\ud800', 'file:///'])(
    '%j changes nothing, and ends nothing',
    async (uri) => {
      expect(await move(uri, uri)).toEqual([]);
      expect(client.process.exitCode).toBeNull();
    },
  );
});

describe('documents', () => {
  it.each([
    (uri: string) => uri.replace('file:', 'FILE:'),
    (uri: string) => uri.replace('spelled', '%73pelled'),
    (uri: string) => uri.replace('file://', 'file://localhost'),
    (uri: string) => uri.replace('work/', 'work/lib/../'),
    (uri: string) => uri.replace('work/', 'work//'),
  ])('find what is beside them, and are answered as they were spelled (%#)', async (spell) => {
    const uri = spell(folder.uri('work/spelled.machine.yaml'));
    expect(await statesOf(uri, 'machine: a\nparts:\n  p: { sheet: lib/own.part.yaml }\n')).toEqual([]);
  });

  it('that are called by no URI do not keep the others from their sheets', async () => {
    for (const uri of ['a b:c', 'file:////x', '']) client.open(uri, 'machine: a\n', 'fettle-machine');
    const uri = folder.uri('work/beside.machine.yaml');
    expect(await statesOf(uri, 'machine: a\nparts:\n  p: { sheet: lib/own.part.yaml }\n')).toEqual([]);
    for (const odd of ['a b:c', 'file:////x', '']) client.close(odd);
  });
});
