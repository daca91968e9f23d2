import { afterEach, describe, expect, it } from 'vitest';
import {
  CancellationTokenSource,
  ProgressType,
  type WorkspaceDiagnosticReport,
} from 'vscode-languageserver/node';
import { type Folder, openFolder } from '../support/folder.ts';
import { type Client, startClient } from '../support/lsp-client.ts';

const SHEET = `part: Panel
class: controller
source: invented
terminals: { power: [DC+, DC-] }
circuits: { supply: { power-in: [DC+, DC-], voltage: 20..30 V, current: 0.5 A } }
`;
const machine = (supply: string) => `machine: m
mains: 230 V 50 Hz
parts:
  psu: { sheet: generic/${supply} }
  panel: { sheet: panel.part.yaml }
wiring:
  - psu.V+ -> panel.DC+
  - panel.DC- -> psu.V-
`;

let client: Client;
let folder: Folder;
afterEach(async () => {
  await client.stop();
  folder.remove();
});

async function start(files: Readonly<Record<string, string>>) {
  folder = openFolder(files);
  client = await startClient({
    folder: folder.path,
    pulls: true,
    capabilities: { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } },
  });
}

const pullWorkspace = (previous: Record<string, string> = {}, more: object = {}) =>
  client.request<WorkspaceDiagnosticReport>('workspace/diagnostic', {
    previousResultIds: Object.entries(previous).map(([uri, value]) => ({ uri, value })),
    ...more,
  });

/** Codes by file name, of the errors in a report that are about supplies and names; the machine is not earthed either. */
function errorsIn({ items }: WorkspaceDiagnosticReport): Record<string, readonly unknown[]> {
  return Object.fromEntries(
    items.map((item) => [
      item.uri.split('/').at(-1),
      item.kind === 'unchanged'
        ? ['unchanged']
        : item.items
            .map(({ code }) => code)
            .filter((code) => /^(?:power\/outside|name\/sheet)/.test(String(code))),
    ]),
  );
}
const idsIn = ({ items }: WorkspaceDiagnosticReport) =>
  Object.fromEntries(items.flatMap(({ uri, resultId }) => (resultId ? [[uri, resultId]] : [])));

/** Pulls until the workspace has been looked through. */
async function pullSettled(count: number): Promise<WorkspaceDiagnosticReport> {
  let report: WorkspaceDiagnosticReport = { items: [] };
  await expect
    .poll(
      async () => {
        report = await pullWorkspace();
        return report.items.length;
      },
      { timeout: 15_000 },
    )
    .toBe(count);
  return report;
}

const FILES = {
  'good.machine.yaml': machine('supply-24v'),
  'deep/bad.machine.yaml': machine('supply-48v').replace('panel.part', '../panel.part'),
  'panel.part.yaml': SHEET,
  'notes.yaml': 'machine: [not ours',
};

describe('diagnostics of the workspace', () => {
  it('are those of every machine and sheet, open or not', async () => {
    await start(FILES);
    expect(errorsIn(await pullSettled(3))).toEqual({
      'good.machine.yaml': [],
      'bad.machine.yaml': ['power/outside-span'],
      'panel.part.yaml': [],
    });
  });

  it('are unchanged until something changes that they depend on', async () => {
    await start(FILES);
    const ids = idsIn(await pullSettled(3));
    expect(errorsIn(await pullWorkspace(ids))).toEqual({
      'good.machine.yaml': ['unchanged'],
      'bad.machine.yaml': ['unchanged'],
      'panel.part.yaml': ['unchanged'],
    });
    folder.write('panel.part.yaml', SHEET.replace('20..30 V', '40..60 V'));
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: folder.uri('panel.part.yaml'), type: 2 }],
    });
    await expect
      .poll(async () => errorsIn(await pullWorkspace(ids)), { timeout: 15_000 })
      .toEqual({
        'good.machine.yaml': ['power/outside-span'],
        'bad.machine.yaml': [],
        'panel.part.yaml': ['unchanged'],
      });
  });

  it('follow an open text, with its version', async () => {
    await start(FILES);
    await pullSettled(3);
    const uri = folder.uri('good.machine.yaml');
    client.open(uri, FILES['good.machine.yaml']);
    client.swap(uri, 'supply-24v', 'supply-48v');
    const report = await pullWorkspace();
    expect(errorsIn(report)['good.machine.yaml']).toEqual(['power/outside-span']);
    expect(report.items.find((item) => item.uri === uri)?.version).toBe(2);
    expect(report.items.find((item) => item.uri.endsWith('bad.machine.yaml'))?.version).toBeNull();
  });

  it('take back what they said of a file that is gone', async () => {
    await start(FILES);
    const ids = idsIn(await pullSettled(3));
    const gone = folder.uri('deep/gone.machine.yaml');
    const report = await pullWorkspace({ ...ids, [gone]: 'old' });
    expect(report.items.find(({ uri }) => uri === gone)).toMatchObject({ kind: 'full', items: [] });
  });

  it('come one by one with progress, for a client that takes them so', async () => {
    await start(FILES);
    await pullSettled(3);
    const parts: WorkspaceDiagnosticReport[] = [];
    const progress: string[] = [];
    client.connection.onProgress(new ProgressType<WorkspaceDiagnosticReport>(), 'parts', (part) => {
      parts.push(part);
    });
    client.connection.onProgress(new ProgressType<{ kind: string }>(), 'work', ({ kind }) => {
      progress.push(kind);
    });
    const report = await pullWorkspace({}, { partialResultToken: 'parts', workDoneToken: 'work' });
    expect(report.items).toEqual([]);
    expect(parts.map(({ items }) => items.length)).toEqual([1, 1, 1]);
    expect(progress).toEqual(['begin', 'report', 'report', 'report', 'end']);
  });

  it('of several folders', async () => {
    await start({ 'one/a.machine.yaml': machine('supply-24v'), 'one/panel.part.yaml': SHEET });
    const other = openFolder({ 'b.machine.yaml': machine('supply-24v') });
    try {
      await pullSettled(2);
      await client.connection.sendNotification('workspace/didChangeWorkspaceFolders', {
        event: { added: [{ uri: other.uri(''), name: 'other' }], removed: [] },
      });
      const report = await pullSettled(3);
      expect(errorsIn(report)['b.machine.yaml']).toEqual(['name/sheet-not-found']);
    } finally {
      other.remove();
    }
  });

  it('are stopped when nobody wants them any more', async () => {
    const many = Array.from({ length: 400 }, (_, i) => [`m${i}.machine.yaml`, machine('supply-24v')]);
    await start({ ...Object.fromEntries(many), 'panel.part.yaml': SHEET });
    await pullSettled(401);
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: folder.uri('panel.part.yaml'), type: 2 }],
    });
    // Cancelled as soon as the first file is answered, while the others are still to be looked at.
    const source = new CancellationTokenSource();
    client.connection.onProgress(new ProgressType<WorkspaceDiagnosticReport>(), 'first', () =>
      source.cancel(),
    );
    const params = { previousResultIds: [], partialResultToken: 'first' };
    const answer = new Promise((resolve) => {
      void client.connection.sendRequest('workspace/diagnostic', params, source.token).then(
        () => resolve('answered'),
        (error: { code: number }) => resolve(error.code),
      );
    });
    expect(await answer).toBe(-32800);
  });
});

describe('a pulled sheet', () => {
  it('brings the findings of the open machines that use it', async () => {
    await start(FILES);
    await pullSettled(3);
    const [good, sheet] = [folder.uri('good.machine.yaml'), folder.uri('panel.part.yaml')];
    client.open(good, FILES['good.machine.yaml']);
    client.open(sheet, SHEET);
    client.swap(sheet, '20..30 V', '40..60 V');
    const report = await client.pull(sheet);
    const related = report.relatedDocuments?.[good];
    if (related?.kind !== 'full') throw new Error('no report of the machine');
    expect(related.items.map(({ code }) => code)).toContain('power/outside-span');
  });
});

describe('files', () => {
  it('are watched: machines and sheets', async () => {
    folder = openFolder(FILES);
    client = await startClient({ folder: folder.path, initialize: false });
    const globs: string[] = [];
    client.connection.onRequest('client/registerCapability', (params) => {
      for (const { method, registerOptions } of params.registrations)
        if (method === 'workspace/didChangeWatchedFiles')
          globs.push(
            ...registerOptions.watchers.map((watcher: { globPattern: string }) => watcher.globPattern),
          );
      return null;
    });
    await client.request('initialize', {
      processId: null,
      rootUri: folder.uri(''),
      capabilities: { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } },
    });
    await client.connection.sendNotification('initialized', {});
    await expect.poll(() => globs).toContain('**/*.{machine,part}.{yaml,yml}');
  });

  it('that appear are known', async () => {
    await start({ 'a.machine.yaml': machine('supply-24v') });
    expect(errorsIn(await pullSettled(1))['a.machine.yaml']).toEqual(['name/sheet-not-found']);
    folder.write('panel.part.yaml', SHEET);
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: folder.uri('panel.part.yaml'), type: 1 }],
    });
    expect(errorsIn(await pullSettled(2))['a.machine.yaml']).toEqual([]);
  });

  it('that were saved in the editor are read again when they are closed', async () => {
    folder = openFolder(FILES);
    client = await startClient({ folder: folder.path, pulls: true }); // one that watches no files
    await pullSettled(3);
    const uri = folder.uri('good.machine.yaml');
    const changed = machine('supply-48v');
    client.open(uri, FILES['good.machine.yaml']);
    client.swap(uri, 'supply-24v', 'supply-48v');
    folder.write('good.machine.yaml', changed);
    client.close(uri);
    await expect
      .poll(async () => errorsIn(await pullWorkspace())['good.machine.yaml'], { timeout: 15_000 })
      .toEqual(['power/outside-span']);
  });
});
