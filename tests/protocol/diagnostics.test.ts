import fs from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import type { Range } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import {
  EXAMPLE_FOLDER,
  faultsOf,
  lineOf,
  readExample,
  STANDING_CAUTION,
  wordsOf,
} from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { randomFrom } from '../support/random.ts';

const MACHINE = uriOf('examples/gantry-router/gantry-router.machine.yaml');
const OTHER = uriOf('examples/gantry-router/other.machine.yaml');

let client: Client;
afterEach(() => client.stop());

async function open(text: string, uri = MACHINE) {
  client = await startClient({ folder: EXAMPLE_FOLDER });
  client.open(uri, text);
  return client.waitForDiagnostics(uri);
}

describe('pushed diagnostics', () => {
  it('of the example are the standing caution and hints', async () => {
    const diagnostics = await open(readExample());
    expect(faultsOf(diagnostics).map(lineOf)).toEqual([]);
    expect(diagnostics.filter(({ code }) => STANDING_CAUTION.test(String(code))).length).toBe(1);
  });

  it('name the code, the source, and the page of the finding', async () => {
    const diagnostics = await open(readExample().replace('620 mm', '620'));
    for (const diagnostic of diagnostics) {
      const { code, source, codeDescription } = diagnostic;
      expect(code).toMatch(/^[a-z]+\/[a-z-]+$/);
      expect(source).toMatch(/fettle/i);
      expect(wordsOf(diagnostic).length).toBeGreaterThan(20);
      const page = new URL(codeDescription?.href ?? '');
      expect(page.protocol).toBe('file:');
      expect(fs.readFileSync(page, 'utf8')).toContain(`\`${code}\``);
    }
    expect(diagnostics.some(({ code }) => code === 'unit/missing')).toBe(true);
  });

  it('follow incremental edits', async () => {
    await open(readExample());
    client.swap(MACHINE, 'travel:       620 mm', 'travel:       620');
    const [fault, ...more] = faultsOf(await client.waitForDiagnostics(MACHINE));
    expect(more).toEqual([]);
    expect(fault).toMatchObject({ code: 'unit/missing', severity: 1 });
    client.swap(MACHINE, 'travel:       620', 'travel:       620 mm');
    expect(faultsOf(await client.waitForDiagnostics(MACHINE))).toEqual([]);
  });

  it('name no more places beside a finding than somebody follows, and say how many there are', async () => {
    const bars = Array.from({ length: 40 }, (_, bar) => `bar-${bar}`);
    const text = [
      'machine: Toy lathe',
      'parts:',
      '  psu: { sheet: generic/supply-24v }',
      ...bars.map((bar) => `  ${bar}: { sheet: generic/distribution-bar-6 }`),
      'wiring:',
      ...bars.map((bar) => `  - psu.V+ -> ${bar}.T1`),
      '',
    ].join('\n');
    const found = await open(text, OTHER);
    const [overfull] = found.filter(({ code }) => code === 'wiring/terminal-overfull');
    expect(overfull && wordsOf(overfull)).toMatch(/^40 /);
    const notes = overfull?.relatedInformation?.map(({ message }) => message) ?? [];
    expect(notes.length).toBe(12);
    expect(notes[0]).toBe('conductors-per-terminal 3');
  });

  it('are cleared when the text is closed', async () => {
    await open(readExample().replace('620 mm', '620'));
    client.close(MACHINE);
    await expect.poll(() => client.published.findLast(({ uri }) => uri === MACHINE)?.diagnostics).toEqual([]);
  });

  it('of a machine follow an edit of its open sheet, and its return to what is on disk', async () => {
    await open(readExample());
    const sheet = uriOf('examples/gantry-router/sheets/four-axis-bench-panel.part.yaml');
    const text = fs.readFileSync(new URL(sheet), 'utf8');
    client.open(sheet, text);
    await client.waitForDiagnostics(sheet);
    client.swap(sheet, 'voltage: 20..30 V', 'voltage: 10..15 V');
    const faults = () => faultsOf(client.published.findLast(({ uri }) => uri === MACHINE)?.diagnostics ?? []);
    await expect.poll(() => faults().map(wordsOf).join('\n'), { timeout: 5000 }).toMatch(/10\.\.15 V/);
    client.close(sheet); // unsaved: the file on disk counts again
    await expect.poll(() => faults().map(lineOf), { timeout: 5000 }).toEqual([]);
  });
});

describe('cures that look through the library', () => {
  it('are offered though no part names the sheet yet', async () => {
    const text = readExample().replaceAll('generic/inductive-pnp-nc', 'generic/inductive-npn-nc');
    const faults = faultsOf(await open(text)).filter(({ code }) => code === 'polarity/sensor-kind');
    expect(faults.length).toBeGreaterThan(0);
    const actions = await client.codeActions(MACHINE, faults.slice(0, 1));
    expect(actions.map(({ title }) => title)).toContain('Use generic/inductive-pnp-nc for home-x');
  });
});

describe('pulled diagnostics', () => {
  it('come with a result id, and are unchanged while the text is', async () => {
    client = await startClient({ pulls: true, folder: EXAMPLE_FOLDER });
    client.open(MACHINE, readExample());
    const first = await client.pull(MACHINE);
    if (first.kind !== 'full') throw new Error('the first report is not a full one');
    expect(first.items.length).toBeGreaterThan(0);
    expect(first.resultId).toBeTruthy();
    // The workspace is still being looked through for sheets, after which everything is checked once more.
    let known = first.resultId;
    const again = async () => {
      const report = await client.pull(MACHINE, known);
      known = report.resultId;
      return report.kind;
    };
    await expect.poll(again).toBe('unchanged');
    expect(await again()).toBe('unchanged');
    client.swap(MACHINE, 'travel:       620 mm', 'travel:       620');
    const second = await client.pull(MACHINE, known);
    if (second.kind !== 'full') throw new Error('the report after an edit is not a full one');
    expect(faultsOf(second.items).map(({ code }) => code)).toEqual(['unit/missing']);
  });

  it('are the pushed ones', async () => {
    const text = readExample().replace('620 mm', '620').replace('normally-closed', 'normally-closd');
    const pushed = (await open(text)).map(lineOf);
    await client.stop();
    client = await startClient({ pulls: true, folder: EXAMPLE_FOLDER });
    client.open(MACHINE, text);
    const report = await client.pull(MACHINE);
    expect(report.kind === 'full' ? report.items.map(lineOf) : []).toEqual(pushed);
    expect(client.published.filter(({ diagnostics }) => diagnostics.length > 0)).toEqual([]);
  });
});

describe('findings stay the same and in place', () => {
  const mistaken = readExample().replace('620 mm', '620').replace('normally-closed', 'normally-closd');
  const touched = (text: string, range: Range) => TextDocument.create('', '', 0, text).getText(range);

  it.each([
    ['CRLF', (text: string) => text.replaceAll('\n', '\r\n')],
    ['a byte order mark', (text: string) => `\ufeff${text}`],
    ['no final newline', (text: string) => text.trimEnd()],
    [
      'characters beyond the basic plane',
      (text: string) => text.replace('Fairground router', 'Fairground 🎠 router'),
    ],
  ])('with %s', async (_, change) => {
    const plain = await open(mistaken);
    const changed = change(mistaken);
    client.open(OTHER, changed);
    const varied = await client.waitForDiagnostics(OTHER);
    expect(varied.map(lineOf)).toEqual(plain.map(lineOf));
    const faults = faultsOf(varied).map(({ range }) => touched(changed, range));
    expect(faults.toSorted()).toEqual(['620', 'normally-closd']);
  });

  it.each([
    ['an emoji on the line', '{ sheet: generic/roller-switch, at: gantry 🛠, set: { contact: closd } }'],
    ['an accent on the line', '{ sheet: generic/roller-switch, at: façade, set: { contact: closd } }'],
    [
      'a line separator in a comment before',
      '{ sheet: generic/roller-switch, at: gantry, set: { contact: closd } }',
      '# a\u2028b',
    ],
    [
      'a next-line character in a comment before',
      '{ sheet: generic/roller-switch, at: gantry, set: { contact: closd } }',
      '# a\u0085b',
    ],
  ])('with %s', async (_, part, comment = '# comment') => {
    const text = readExample().replace(/^ {2}near-x:.*$/m, `  ${comment}\n  near-x: ${part}`);
    const faults = faultsOf(await open(text));
    expect(faults.map(({ range }) => touched(text, range))).toEqual(['closd']);
  });

  it('after many edits as in a text opened afresh', async () => {
    await open(readExample());
    const random = randomFrom(20_261_125);
    const scraps = [
      '',
      ' ',
      '\n',
      '  ',
      'x',
      '5 mm',
      '{',
      ']',
      ': ',
      '- ',
      '# ',
      "'",
      'panel.',
      '&a ',
      '*a',
      '\t',
    ];
    for (let edit = 0; edit < 120; edit++) {
      const document = TextDocument.create(MACHINE, '', 0, client.textOf(MACHINE));
      const from = random.below(document.getText().length);
      const to = Math.min(document.getText().length, from + random.below(4));
      const range = { start: document.positionAt(from), end: document.positionAt(to) };
      client.replace(MACHINE, range, random.oneOf(scraps));
      if (edit % 12 !== 11) continue;
      const drifted = (await client.waitForDiagnostics(MACHINE)).map(lineOf);
      client.open(OTHER, client.textOf(MACHINE));
      expect(drifted, `after ${edit + 1} edits`).toEqual(
        (await client.waitForDiagnostics(OTHER)).map(lineOf),
      );
      client.close(OTHER);
    }
  });
});
