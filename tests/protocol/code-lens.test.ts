import { afterEach, expect, it } from 'vitest';
import type { CodeLens } from 'vscode-languageserver/node';
import { makeMachine } from '../bench/machines.ts';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { type Client, type ClientOptions, startClient, uriOf } from '../support/lsp-client.ts';

const MACHINE = uriOf('examples/gantry-router/gantry-router.machine.yaml');
const SHOWS: ClientOptions['capabilities'] = {
  textDocument: { codeLens: {} },
  workspace: { configuration: true },
};

let client: Client | undefined;
afterEach(async () => client?.stop());

async function lensesOf(options: ClientOptions): Promise<readonly CodeLens[]> {
  client = await startClient({ folder: EXAMPLE_FOLDER, ...options });
  client.open(MACHINE, readExample());
  await client.waitForDiagnostics(MACHINE);
  return client.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri: MACHINE } });
}

it('stands on the line of each axis and opens the summary there', async () => {
  const lenses = await lensesOf({ capabilities: SHOWS, settings: {} });
  expect(client?.initialized.capabilities.codeLensProvider).toEqual({});
  const ofX = lenses.find(({ command }) => command?.arguments?.[1] === 'axis:X');
  expect(ofX?.range.start).toEqual(client?.placeOf(MACHINE, '  X: ', 2));
  expect(ofX?.command).toMatchObject({ command: 'fettle.showSummary', arguments: [MACHINE, 'axis:X'] });
  expect(ofX?.command?.title).toMatch(/^160 \/mm · top feed/);
});

it('is not announced to a client that does not draw it', async () => {
  await lensesOf({});
  expect(client?.initialized.capabilities.codeLensProvider).toBeUndefined();
});

it('can be switched off', async () => {
  expect(await lensesOf({ capabilities: SHOWS, settings: { codeLens: false } })).toEqual([]);
});

it('can be switched off for one folder, as any setting', async () => {
  const other = MACHINE.replace('.machine.yaml', '-quiet.machine.yaml');
  const asked: string[] = [];
  const lenses = await lensesOf({
    capabilities: SHOWS,
    answers: {
      'workspace/configuration': ({ items }) =>
        items.map(({ scopeUri = '' }) => {
          asked.push(scopeUri);
          return scopeUri === other ? { codeLens: false, inlayHints: { scale: false } } : {};
        }),
    },
  });
  expect(lenses.length).toBeGreaterThan(3);
  client?.open(other, readExample());
  expect(await client?.request('textDocument/codeLens', { textDocument: { uri: other } })).toEqual([]);
  const scales = async (uri: string) =>
    (await client?.inlayHints(uri))?.filter(({ label }) => label === '160 /mm').length;
  expect(await scales(MACHINE)).toBeGreaterThan(0);
  expect(await scales(other)).toBe(0);
  expect(new Set(asked)).toEqual(new Set([MACHINE, other]));
});

it('waits for what is switched off also while a long text keeps the server busy', async () => {
  client = await startClient({
    folder: EXAMPLE_FOLDER,
    capabilities: SHOWS,
    settings: { codeLens: false },
  });
  client.open(MACHINE, makeMachine(3000));
  const lenses = await client.request('textDocument/codeLens', { textDocument: { uri: MACHINE } });
  expect(lenses).toEqual([]);
});

it('can be switched off by kind', async () => {
  const lenses = await lensesOf({ capabilities: SHOWS, settings: { codeLens: { parts: false } } });
  const ids = lenses.map(({ command }) => String(command?.arguments?.[1]));
  expect(ids).toContain('axis:X');
  expect(ids).not.toContain('part:motor-psu');
});
