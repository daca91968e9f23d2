import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  CHECKED,
  type Checked,
  PLACE_OF,
  type PlaceOf,
  SUMMARY_CHANGES,
  SUMMARY_STALE,
  type SummaryChanges,
  type SummaryPatch,
  THING_AT,
} from '../../server/protocol/private.ts';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

const MACHINE = uriOf('examples/gantry-router/gantry-router.machine.yaml');

let client: Client;
let shown: Map<string, string>;
beforeAll(async () => {
  client = await startClient({ folder: EXAMPLE_FOLDER, initializationOptions: { hearsChecks: true } });
  client.open(MACHINE, readExample());
  await client.waitForDiagnostics(MACHINE);
  shown = new Map();
});
afterAll(() => client.stop());

/** Asks for what differs from what is shown, and takes it over, as the page does. */
async function update(): Promise<SummaryChanges> {
  const changes = await client.request<SummaryChanges>(SUMMARY_CHANGES, {
    uri: MACHINE,
    have: Object.fromEntries(shown),
  });
  for (const patch of changes.patches) {
    if (patch.kind === 'put') shown.set(patch.id, patch.hash);
    else shown.delete(patch.id);
  }
  return changes;
}
const idsOf = (patches: readonly SummaryPatch[]) => patches.map(({ id }) => id);

describe('the wiring summary', () => {
  it('is sent whole to a page that shows nothing', async () => {
    const { title, broken, patches } = await update();
    expect(title).toContain('Fairground router');
    expect(broken).toBe(false);
    expect(idsOf(patches)).toEqual(expect.arrayContaining(['axes', 'supplies', 'chart:panel', 'cautions']));
    expect(new Set(idsOf(patches)).size).toBe(patches.length);
    expect(patches.some((patch) => patch.kind === 'put' && patch.item.kind === 'drawing')).toBe(true);
  });

  it('sends nothing when nothing changed', async () => {
    expect((await update()).patches).toEqual([]);
    client.swap(MACHINE, '# Carves signs', '# Carves  signs');
    await client.waitForDiagnostics(MACHINE);
    expect((await update()).patches).toEqual([]);
  });

  it('says that it is stale, and sends only what an edit changed', async () => {
    const before = client.notified.filter(({ method }) => method === SUMMARY_STALE).length;
    client.swap(MACHINE, 'lead: 10 mm', 'lead: 5 mm');
    await client.waitForDiagnostics(MACHINE);
    await expect
      .poll(() => client.notified.filter(({ method }) => method === SUMMARY_STALE).length)
      .toBeGreaterThan(before);
    const { patches } = await update();
    expect(idsOf(patches)).toContain('axes');
    expect(idsOf(patches)).not.toContain('chart:wheel');
    client.swap(MACHINE, 'lead: 5 mm', 'lead: 10 mm');
    await update();
  });

  it('leads from a thing to its place in the text and back', async () => {
    const place = await client.request<PlaceOf | null>(PLACE_OF, { uri: MACHINE, id: 'axis:X' });
    expect(place?.uri).toBe(MACHINE);
    expect(client.textOf(MACHINE).split('\n')[place?.range.start.line ?? -1]).toMatch(/^ {2}X:/);
    const position = client.placeOf(MACHINE, 'drive-x:  {', 3);
    const thing = await client.request<string | { id: string } | null>(THING_AT, { uri: MACHINE, position });
    expect(typeof thing === 'string' ? thing : thing?.id).toBe('part:drive-x');
    expect(await client.request(PLACE_OF, { uri: MACHINE, id: 'axis:__proto__' })).toBeNull();
  });

  it('keeps the last good picture while the text is broken', async () => {
    client.swap(MACHINE, 'axes:\n', 'axes: {\n');
    await client.waitForDiagnostics(MACHINE);
    expect((await update()).broken).toBe(true);
    client.swap(MACHINE, 'axes: {\n', 'axes:\n');
    expect((await update()).broken).toBe(false);
  });

  it('tells of its checks only who asked for that', async () => {
    const other = await startClient({ folder: EXAMPLE_FOLDER });
    other.open(MACHINE, client.textOf(MACHINE));
    await other.waitForDiagnostics(MACHINE);
    // Requests are answered in turn: whatever followed from the check is out by the second answer.
    await other.request('textDocument/documentSymbol', { textDocument: { uri: MACHINE } });
    await other.request('textDocument/documentSymbol', { textDocument: { uri: MACHINE } });
    const own = other.notified.filter(({ method }) => method.startsWith('fettle/'));
    await other.stop();
    expect(own).toEqual([]);
  });

  it('is counted for the status item', () => {
    const checked = client.notified.findLast(({ method }) => method === CHECKED)?.params as Checked;
    expect(checked.covered).toMatch(/\d+ parts/);
    expect(checked.errors + checked.warnings + checked.hints).toBeGreaterThan(0);
  });
});
