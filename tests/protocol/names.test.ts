import { afterEach, describe, expect, it } from 'vitest';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  DocumentHighlight,
  DocumentLink,
  FoldingRange,
  LinkedEditingRanges,
  Location,
  Range,
  SelectionRange,
  WorkspaceEdit,
  WorkspaceSymbol,
} from 'vscode-languageserver/node';
import { ENCODINGS, type Encoding, positionIn } from '../support/encodings.ts';
import { type Folder, openFolder } from '../support/folder.ts';
import { type Client, type ClientOptions, editsOf, startClient } from '../support/lsp-client.ts';

/** An astral character, an accent and a Cyrillic letter stand before every name on its line. */
const MACHINE = `machine: "🛠 é Ж"
parts:
  "🎠é": { sheet: panel.part.yaml, about: 🎠 }
  drive: { about: 🛠 é Ж, sheet: generic/microstep-drive-50v }
wiring:
  - { label: 🛠 é Ж, link: 🎠é.XЖ -> drive.PUL- }
  - { label: 🛠, link: 🎠é.DЖ -> drive.DIR- }
axes: { X: { drive: drive } }
`;
const SHEET = `part: 🎠
class: controller
terminals: { 🛠: [XЖ, DЖ] }
circuits:
  pulse: { about: 🛠 é Ж, sink-out: [XЖ, DЖ], does: pulse X }
`;
const FILES = { 'a.machine.yaml': MACHINE, 'panel.part.yaml': SHEET };

let client: Client;
let folder: Folder;
afterEach(async () => {
  await client.stop();
  folder.remove();
});

async function start(
  encoding: Encoding = 'utf-16',
  more: ClientOptions['capabilities'] = {},
): Promise<string> {
  folder = openFolder(FILES);
  const general = { positionEncodings: ['no-such-thing', encoding, 'utf-16'] };
  client = await startClient({ folder: folder.path, capabilities: { ...more, general } });
  const uri = folder.uri('a.machine.yaml');
  client.open(uri, MACHINE);
  await client.waitForDiagnostics(uri);
  // The folder has been looked through when the sheet is known.
  await expect
    .poll(() => client.request<WorkspaceSymbol[]>('workspace/symbol', { query: 'pulse' }), {
      timeout: 15_000,
    })
    .toHaveLength(1);
  return uri;
}

/** What a range covers, by the encoding that was agreed on. */
function textIn(text: string, { start: from, end }: Range, encoding: Encoding): string {
  const offsetOf = ({ line, character }: Range['start']) => {
    for (let offset = 0; offset <= text.length; offset++) {
      const at = positionIn(text, offset, encoding);
      if (at.line === line && at.character === character) return offset;
    }
    throw new Error(`no such position: ${line}:${character}`);
  };
  return text.slice(offsetOf(from), offsetOf(end));
}
const at = (word: string, encoding: Encoding = 'utf-16', shift = 0) =>
  positionIn(MACHINE, MACHINE.indexOf(word) + shift, encoding);

describe.each(ENCODINGS)('in %s', (encoding) => {
  it('the encoding is agreed on', async () => {
    await start(encoding);
    expect(client.initialized.capabilities.positionEncoding).toBe(encoding);
  });

  it('references, highlights and linked places are where the names are', async () => {
    const uri = await start(encoding);
    const textDocument = { uri };
    const position = at('XЖ', encoding);
    const found = await client.request<Location[]>('textDocument/references', {
      textDocument,
      position,
      context: { includeDeclaration: true },
    });
    expect(found.map((each) => textIn(each.uri === uri ? MACHINE : SHEET, each.range, encoding))).toEqual([
      'XЖ',
      'XЖ',
      'XЖ',
    ]);
    const part = at('🎠é.', encoding);
    const lit = await client.request<DocumentHighlight[]>('textDocument/documentHighlight', {
      textDocument,
      position: part,
    });
    expect(lit.map(({ range }) => textIn(MACHINE, range, encoding))).toEqual(['🎠é', '🎠é', '🎠é']);
    expect(lit.map(({ kind }) => kind)).toEqual([3, 2, 2]); // written where it is defined, read elsewhere
    const linked = await client.request<LinkedEditingRanges>('textDocument/linkedEditingRange', {
      textDocument,
      position: part,
    });
    expect(linked.ranges.map((range) => textIn(MACHINE, range, encoding))).toEqual(['🎠é', '🎠é', '🎠é']);
  });

  it('an edit lands where it was meant, and findings follow', async () => {
    const uri = await start(encoding);
    const from = at('drive.DIR-', encoding);
    const to = at('drive.DIR-', encoding, 'drive'.length);
    await client.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version: 2 },
      contentChanges: [{ range: { start: from, end: to }, text: 'Ж' }],
    });
    await expect
      .poll(() => client.published.findLast((each) => each.uri === uri && each.version === 2))
      .toBeDefined();
    const changed = MACHINE.replace('drive.DIR-', 'Ж.DIR-');
    const diagnostics = client.published.findLast((each) => each.uri === uri)?.diagnostics ?? [];
    const unknown = diagnostics.filter(({ code }) => code === 'name/unknown-part');
    expect(unknown.map(({ range }) => textIn(changed, range, encoding))).toEqual(['Ж']);
  });

  it('a rename changes both files', async () => {
    const uri = await start(encoding);
    const edit = await client.request<WorkspaceEdit>('textDocument/rename', {
      textDocument: { uri },
      position: at('XЖ', encoding),
      newName: 'P1',
    });
    const changed = editsOf(edit).flatMap(([file, edits]) =>
      edits.map(({ range }) => textIn(file === uri ? MACHINE : SHEET, range, encoding)),
    );
    expect(changed).toEqual(['XЖ', 'XЖ', 'XЖ']);
  });
});

describe('over the protocol', () => {
  it('a client that names no encoding counts in UTF-16', async () => {
    folder = openFolder(FILES);
    client = await startClient({ folder: folder.path });
    expect(client.initialized.capabilities.positionEncoding).toBe('utf-16');
  });

  it('a rename in several files is described, for clients that show it', async () => {
    const uri = await start('utf-16', {
      textDocument: { rename: { prepareSupport: true } },
      workspace: {
        workspaceEdit: { documentChanges: true, changeAnnotationSupport: { groupsOnLabel: true } },
      },
    });
    expect(client.initialized.capabilities.renameProvider).toEqual({ prepareProvider: true });
    const params = { textDocument: { uri }, position: at('XЖ') };
    expect(await client.request('textDocument/prepareRename', params)).toMatchObject({ placeholder: 'XЖ' });
    const edit = await client.request<WorkspaceEdit>('textDocument/rename', { ...params, newName: 'P1' });
    expect(Object.values(edit.changeAnnotations ?? {})).toEqual([
      { label: 'Rename XЖ to P1', description: '1 place in a.machine.yaml' },
      { label: 'Rename XЖ to P1', description: '2 places in panel.part.yaml' },
    ]);
    const versions = (edit.documentChanges ?? []).map((change) =>
      'textDocument' in change ? change.textDocument.version : 'none',
    );
    expect(versions).toEqual([1, null]);
  });

  it('a refusal is said in words', async () => {
    const uri = await start();
    const params = { textDocument: { uri }, position: at('PUL-'), newName: 'P1' };
    const refusal = await client
      .request('textDocument/rename', params)
      .catch((error: Error) => error.message);
    expect(refusal).toMatch(/generic\/microstep-drive-50v, which ships with the tool/);
    const prepared = await client
      .request('textDocument/prepareRename', params)
      .catch((error: Error) => error.message);
    expect(prepared).toBe(refusal);
  });

  it('links lead to sheets', async () => {
    const uri = await start();
    const links = await client.request<DocumentLink[]>('textDocument/documentLink', {
      textDocument: { uri },
    });
    expect(links.map(({ range }) => textIn(MACHINE, range, 'utf-16'))).toEqual([
      'panel.part.yaml',
      'generic/microstep-drive-50v',
    ]);
    const targets = await Promise.all(
      links.map((link) => client.request<DocumentLink>('documentLink/resolve', link)),
    );
    expect(targets[0]?.target).toBe(folder.uri('panel.part.yaml'));
    expect(targets[1]?.target).toMatch(/microstep-drive-50v\.part\.yaml$/);
  });

  it('a moved sheet takes its machines along', async () => {
    const uri = await start();
    const edit = await client.request<WorkspaceEdit>('workspace/willRenameFiles', {
      files: [{ oldUri: folder.uri('panel.part.yaml'), newUri: folder.uri('sheets/front.part.yaml') }],
    });
    client.applyEdit(edit);
    expect(client.textOf(uri)).toContain('{ sheet: sheets/front.part.yaml, about');
    expect(
      await client.request('workspace/willRenameFiles', {
        files: [{ oldUri: folder.uri('other.txt'), newUri: folder.uri('another.txt') }],
      }),
    ).toBeNull();
  });

  it('symbols of the workspace are found', async () => {
    await start();
    const symbols = await client.request<WorkspaceSymbol[]>('workspace/symbol', { query: 'dr' });
    expect(symbols[0]).toMatchObject({ name: 'drive', containerName: 'a.machine.yaml' });
  });

  it('a signal is followed from the drive to the panel', async () => {
    const uri = await start();
    const [item] = await client.request<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', {
      textDocument: { uri },
      position: at('PUL-'),
    });
    expect(item).toMatchObject({ name: 'drive.pulse', detail: 'pulse' });
    const calls = await client.request<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
    expect(
      calls.map(({ from, fromRanges }) => [
        from.name,
        fromRanges.map((range) => textIn(MACHINE, range, 'utf-16')),
      ]),
    ).toEqual([['🎠é.pulse', ['🎠é.XЖ -> drive.PUL-']]]);
    expect(
      await client.request('callHierarchy/outgoingCalls', { item: { ...item, data: { part: 7 } } }),
    ).toEqual([]);
  });

  it('selections grow and groups fold', async () => {
    const uri = await start();
    const textDocument = { uri };
    const [selection] = await client.request<SelectionRange[]>('textDocument/selectionRange', {
      textDocument,
      positions: [at('PUL-')],
    });
    const texts: string[] = [];
    for (let each = selection; each; each = each.parent as SelectionRange)
      texts.push(textIn(MACHINE, each.range, 'utf-16'));
    expect(texts.slice(0, 3)).toEqual(['PUL-', 'drive.PUL-', '🎠é.XЖ -> drive.PUL-']);
    expect(texts.at(-1)).toBe(MACHINE);
    const folds = await client.request<FoldingRange[]>('textDocument/foldingRange', { textDocument });
    expect(folds.map(({ startLine, endLine }) => [startLine, endLine])).toEqual([
      [1, 3],
      [4, 6],
    ]);
  });
});

describe('URIs in every spelling', () => {
  const ask = async (uri: string) => {
    const position = at('drive.PUL-');
    const textDocument = { uri };
    const context = { includeDeclaration: true };
    const found = await client.request<Location[]>('textDocument/references', {
      textDocument,
      position,
      context,
    });
    return found.map((each) => each.uri);
  };

  it.each([
    ['a percent-encoded letter', (uri: string) => uri.replace('a.machine', '%61.machine')],
    ['lower-case percent-encoding', (uri: string) => uri.replace('a.machine', 'a%2emachine')],
    ['an authority of localhost left out', (uri: string) => uri.replace('file:///', 'file:/')],
  ])('%s: answers come under the client’s spelling, once', async (_, spell) => {
    folder = openFolder(FILES);
    client = await startClient({ folder: folder.path });
    const uri = spell(folder.uri('a.machine.yaml'));
    client.open(uri, MACHINE);
    await client.waitForDiagnostics(uri);
    expect(await ask(uri)).toEqual([uri, uri, uri, uri]);
  });

  it.each([
    'untitled:Untitled-1.machine.yaml',
    'vscode-vfs://github/someone/something/a.machine.yaml',
    'vscode-remote://wsl%2Bdebian/home/a/a.machine.yaml',
    'git:/home/a/a.machine.yaml?%7B%22ref%22%3A%22~%22%7D',
    'file:///c%3A/machines/a.machine.yaml',
    'file:///C:/machines/a.machine.yaml',
    'file:///home/someone/b%20c%23d/%C3%A9.machine.yaml',
    'file://server/share/a.machine.yaml',
  ])('%s', async (uri) => {
    folder = openFolder(FILES);
    client = await startClient({ folder: folder.path });
    client.open(uri, MACHINE);
    await client.waitForDiagnostics(uri);
    expect(await ask(uri)).toEqual([uri, uri, uri, uri]);
    const edit = await client.request<WorkspaceEdit>('textDocument/rename', {
      textDocument: { uri },
      position: at('drive.PUL-'),
      newName: 'drive-x',
    });
    client.applyEdit(edit);
    expect(client.textOf(uri)).toBe(MACHINE.replaceAll(/\bdrive(?=\.|:(?= \{ about)| \} \})/g, 'drive-x'));
  });
});
