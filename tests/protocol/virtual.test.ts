import { afterEach, expect, it } from 'vitest';
import type { Location, WorkspaceDiagnosticReport, WorkspaceEdit } from 'vscode-languageserver/node';
import { type Client, type ClientOptions, editsOf, startClient } from '../support/lsp-client.ts';

/** A workspace on no disk: its files are known to the client alone, which reads them for the server. */
const ROOT = 'memfs://somewhere/machines';
const MACHINE = `machine: m
mains: 230 V 50 Hz
parts:
  psu: { sheet: generic/supply-24v }
  panel: { sheet: sheets/panel.part.yaml }
wiring:
  - psu.V+ -> panel.DC+
  - panel.DC- -> psu.V-
`;
const SHEET = `part: Panel
class: controller
source: invented
terminals: { power: [DC+, DC-] }
circuits: { supply: { power-in: [DC+, DC-], voltage: 20..30 V, current: 0.5 A } }
`;

let client: Client;
afterEach(() => client.stop());

/** Starts a client whose files are these, by their paths in the folder; gives what it was asked to read. */
async function start(files: Map<string, string>, options: Partial<ClientOptions> = {}): Promise<string[]> {
  const asked: string[] = [];
  const pathOf = (uri: string) => (uri.startsWith(`${ROOT}/`) ? uri.slice(ROOT.length + 1) : undefined);
  client = await startClient({
    pulls: true,
    workspaceUri: ROOT,
    initializationOptions: { readsFiles: true },
    capabilities: { workspace: { didChangeWatchedFiles: { dynamicRegistration: true } } },
    answers: {
      'fettle/readFile': ({ uri }) => {
        asked.push(uri);
        const text = files.get(pathOf(uri) ?? '');
        return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
      },
      'fettle/listFolder': ({ uri }) => {
        const base = uri === ROOT ? '' : `${pathOf(uri)}/`;
        const inside = [...files.keys()].filter((file) => file.startsWith(base));
        const names = inside.map((file) => file.slice(base.length).split('/'));
        return [...new Map(names.map(([name, ...rest]) => [name, rest.length > 0 ? 'folder' : 'file']))].map(
          ([name, kind]) => ({ name, kind }),
        );
      },
    },
    ...options,
  });
  return asked;
}

const uriOf = (file: string) => `${ROOT}/${file}`;
const files = (): Map<string, string> =>
  new Map([
    ['a.machine.yaml', MACHINE],
    ['deep/er/b.machine.yaml', MACHINE.replace('sheets/', '../../sheets/').replace('-24v', '-48v')],
    ['sheets/panel.part.yaml', SHEET],
    ['node_modules/other/c.machine.yaml', 'machine: [not ours'],
  ]);

async function codesOf(file: string): Promise<unknown[]> {
  const report = await client.pull(uriOf(file));
  if (report.kind !== 'full') throw new Error('no full report');
  return report.items.map(({ code }) => code).filter((code) => /^(?:name|power\/outside)/.test(String(code)));
}

it('the sheet that a machine names is read through the client, and the name leads to it', async () => {
  const asked = await start(files());
  client.open(uriOf('a.machine.yaml'), MACHINE);
  expect(await codesOf('a.machine.yaml')).toEqual([]);
  expect(asked).toContain(uriOf('sheets/panel.part.yaml'));
  const found = await client.request<Location[]>('textDocument/definition', {
    textDocument: { uri: uriOf('a.machine.yaml') },
    position: client.placeOf(uriOf('a.machine.yaml'), 'sheets/panel', 3),
  });
  expect(JSON.stringify(found)).toContain(uriOf('sheets/panel.part.yaml'));
});

it('machines that nobody opened are checked too, in all folders but those of other people', async () => {
  await start(files());
  const names: string[] = [];
  await expect
    .poll(async () => {
      const { items } = await client.request<WorkspaceDiagnosticReport>('workspace/diagnostic', {
        previousResultIds: [],
      });
      names.splice(0, names.length, ...items.map(({ uri }) => uri.slice(ROOT.length + 1)));
      return items.flatMap((item) =>
        item.kind === 'full' ? item.items.map(({ code }) => `${item.uri.split('/').at(-1)} ${code}`) : [],
      );
    })
    .toContain('b.machine.yaml power/outside-span');
  expect(names).toEqual(['a.machine.yaml', 'deep/er/b.machine.yaml', 'sheets/panel.part.yaml']);
});

it('a rename reaches the files that only the client has', async () => {
  await start(files());
  client.open(uriOf('sheets/panel.part.yaml'), SHEET);
  await expect
    .poll(async () => {
      const edit = await client.request<WorkspaceEdit | null>('textDocument/rename', {
        textDocument: { uri: uriOf('sheets/panel.part.yaml') },
        position: client.placeOf(uriOf('sheets/panel.part.yaml'), 'DC+', 1),
        newName: 'VIN',
      });
      return editsOf(edit ?? undefined)
        .map(([uri]) => uri.slice(ROOT.length + 1))
        .sort();
    })
    .toEqual(['a.machine.yaml', 'deep/er/b.machine.yaml', 'sheets/panel.part.yaml']);
});

it('a sheet that changes there checks the machines again, and so does the project', async () => {
  const all = files();
  await start(all);
  client.open(uriOf('a.machine.yaml'), MACHINE);
  expect(await codesOf('a.machine.yaml')).toEqual([]);
  const change = async (file: string, text: string) => {
    all.set(file, text);
    await client.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: uriOf(file), type: 2 }],
    });
  };
  await change('sheets/panel.part.yaml', SHEET.replace('20..30 V', '40..60 V'));
  await expect.poll(() => codesOf('a.machine.yaml')).toEqual(['power/outside-span']);
  await change('.fettle.yaml', 'silence: { power/outside-span: the sheet is being rewritten }\n');
  await expect.poll(() => codesOf('a.machine.yaml')).toEqual([]);
});

it('a file above the folder is not asked for, but a project there is, and the client decides', async () => {
  const asked = await start(files());
  const text = MACHINE.replace('sheets/panel', '../../elsewhere/panel');
  client.open(uriOf('a.machine.yaml'), text);
  expect(await codesOf('a.machine.yaml')).toEqual(['name/sheet-not-found']);
  expect(asked.filter((uri) => uri.includes('elsewhere'))).toEqual([]);
});

it('a client that does not say that it reads files is not asked', async () => {
  const asked = await start(files(), { initializationOptions: undefined });
  client.open(uriOf('a.machine.yaml'), MACHINE);
  expect(await codesOf('a.machine.yaml')).toEqual(['name/sheet-not-found']);
  expect(asked).toEqual([]);
});
