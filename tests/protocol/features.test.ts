import fs from 'node:fs';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type {
  CodeAction,
  CompletionItem,
  Diagnostic,
  DocumentSymbol,
  Hover,
  InlayHint,
  Location,
  LocationLink,
} from 'vscode-languageserver/node';
import { EXAMPLE_FOLDER, faultsOf, lineOf, readExample, wordsOf } from '../support/example.ts';
import { type Client, editsOf, startClient, uriOf } from '../support/lsp-client.ts';

const MACHINE = uriOf('examples/gantry-router/gantry-router.machine.yaml');

let client: Client;
beforeAll(async () => {
  client = await startClient({ folder: EXAMPLE_FOLDER });
  client.open(MACHINE, readExample());
});
afterAll(() => client.stop());

/** Puts an open text in the place of what is there, as one edit over the whole. */
async function write(text: string): Promise<readonly Diagnostic[]> {
  const end = client.textOf(MACHINE).split('\n').length;
  client.replace(MACHINE, { start: { line: 0, character: 0 }, end: { line: end, character: 0 } }, text);
  return client.waitForDiagnostics(MACHINE);
}

const markdownOf = (hover: Hover | null): string => {
  const contents = hover?.contents;
  return typeof contents === 'object' && 'value' in contents ? contents.value : '';
};
const labelOf = ({ label }: InlayHint): string =>
  typeof label === 'string' ? label : label.map(({ value }) => value).join('');

describe('hover', () => {
  beforeEach(() => write(readExample()));

  it('shows the working of pulses per length with the figures of this machine', async () => {
    const text = markdownOf(await client.hover(MACHINE, client.placeOf(MACHINE, '  X: ', 2)));
    expect(text).toMatch(/160/); // 200 steps × 8 microsteps / 10 mm
    expect(text).toMatch(/200/);
    expect(text).toMatch(/10 mm/);
  });

  it('shows what a setting should be and where it comes from', async () => {
    const text = markdownOf(await client.hover(MACHINE, client.placeOf(MACHINE, 'c1-1: 160', 8)));
    expect(text).toMatch(/160/);
    expect(text).toMatch(/pulses/i);
  });

  it.each([
    ['a key', 'acceleration: 500', 2, /acceleration/i],
    ['a part', 'near-x:          {', 2, /switch/i],
    ['a terminal', 'panel.PX', 7, /pulse/i],
    ['a quantity', '620 mm', 1, /mm|in/],
  ])('says something of %s', async (_, text, offset, expected) => {
    expect(markdownOf(await client.hover(MACHINE, client.placeOf(MACHINE, text, offset)))).toMatch(expected);
  });

  it('stays silent over comments and blank places', async () => {
    expect(await client.hover(MACHINE, { line: 0, character: 10 })).toBeNull();
  });
});

describe('inlay hints', () => {
  it('stand beside each axis with its scale and its top feed', async () => {
    await write(readExample());
    const hints = await client.inlayHints(MACHINE);
    const lines = client.textOf(MACHINE).split('\n');
    for (const axis of ['X', 'Y', 'Z', 'A']) {
      const row = lines.findIndex((line) => line.startsWith(`  ${axis}:`) && line.length > 3);
      const beside = hints
        .filter(({ position }) => position.line >= row && position.line < row + 16)
        .map(labelOf);
      expect(beside.join(' '), axis).toMatch(axis === 'A' ? /320(?:\.0+)?.*deg/ : /\d.*mm/);
    }
    expect(hints.map(labelOf).join(' ')).toMatch(/127\.32/); // Y: 200 × 8 × 5 / (π × 1 mm × 20)
  });

  it('come only for the lines that are asked for', async () => {
    const range = { start: { line: 0, character: 0 }, end: { line: 5, character: 0 } };
    const hints = await client.request<InlayHint[] | null>('textDocument/inlayHint', {
      textDocument: { uri: MACHINE },
      range,
    });
    expect((hints ?? []).filter(({ position }) => position.line > 5)).toEqual([]);
  });

  it('bring their working along, or later to clients that ask for it when somebody goes for one', async () => {
    await write(readExample());
    const scaleOf = (hints: readonly InlayHint[]) => hints.find((hint) => labelOf(hint) === '160 /mm');
    const scale = scaleOf(await client.inlayHints(MACHINE));
    expect(scale?.tooltip).toMatchObject({ value: expect.stringContaining('= 160') });
    const asking = await startClient({
      capabilities: { textDocument: { inlayHint: { resolveSupport: { properties: ['tooltip'] } } } },
    });
    try {
      asking.open(MACHINE, readExample());
      const bare = scaleOf(await asking.inlayHints(MACHINE));
      expect(scale && bare).toEqual({ ...scale, tooltip: undefined });
      expect(await asking.request('inlayHint/resolve', bare)).toEqual(scale);
    } finally {
      await asking.stop();
    }
  });
});

describe('completion', () => {
  /** Replaces some text and completes at the end of what was put there; the labels come in the order of the list. */
  async function completeAfter(from: string, typed: string): Promise<readonly string[]> {
    const before = readExample();
    await write(before.replace(from, () => typed));
    const items = await client.complete(
      MACHINE,
      client.positionAt(MACHINE, before.indexOf(from) + typed.length),
    );
    const order = ({ sortText, label }: CompletionItem) => sortText ?? label;
    return items.toSorted((a, b) => (order(a) < order(b) ? -1 : 1)).map(({ label }) => label);
  }

  it.each([
    ['keys of an axis', '    travel:       620 mm', '    tr', ['travel']],
    ['keys at the top', 'handwheel: { part: wheel, step: 0.001 mm, spin: 2 rev/s }', 'hand', ['handwheel']],
    ['parts', 'drive:        drive-x', 'drive: ', ['drive-x', 'drive-y1']],
    ['terminals after the dot', 'panel.PX -> drive-x.PUL-', 'panel.PX -> drive-x.', ['PUL+', 'PUL-', 'DIR-']],
    ['settings of the sheet', 'set: { microsteps: 8,', 'set: { ', ['microsteps']],
    [
      'choices of a setting',
      'set: { contact: normally-closed }',
      'set: { contact: ',
      ['normally-closed', 'normally-open'],
    ],
    ['units that fit', 'travel:       620 mm', 'travel:       620 ', ['620 mm', '620 in']],
    ['sheets', 'sheet: generic/roller-switch', 'sheet: generic/rol', ['generic/roller-switch']],
  ])('offers %s', async (_, from, typed, expected) => {
    expect(await completeAfter(from, typed)).toEqual(expect.arrayContaining(expected));
  });

  it('offers unwired terminals first', async () => {
    const labels = await completeAfter('panel.PX -> drive-x.PUL-', 'panel.PX -> drive-x.');
    expect(labels[0]).toBe('PUL-'); // its only wire has just been taken away
  });

  it('offers no unit of another dimension', async () => {
    expect(await completeAfter('travel:       620 mm', 'travel:       620 ')).not.toContain('620 V');
  });
});

describe('quick fixes', () => {
  /** The fixes of the one fault that a change brings, first the one to prefer. */
  async function fixesAfter(from: string, to: string) {
    const faults = faultsOf(await write(readExample().replace(from, to)));
    expect(faults.map(lineOf)).toHaveLength(1);
    const actions = await client.codeActions(MACHINE, faults);
    return {
      fault: faults[0] as Diagnostic,
      actions: actions.filter(({ kind }) => kind?.startsWith('quickfix')),
    };
  }

  async function apply(action: CodeAction | undefined) {
    const whole = action?.edit ? action : await client.request<CodeAction>('codeAction/resolve', action);
    for (const [, edits] of editsOf(whole.edit)) {
      for (const { newText, range } of edits) {
        expect(newText).not.toContain('\n');
        expect(range.start.line).toBe(range.end.line);
      }
    }
    client.applyEdit(whole.edit);
    return client.waitForDiagnostics(MACHINE);
  }

  it('add the unit that was meant, and touch nothing else', async () => {
    const { fault, actions } = await fixesAfter('c8-1: 8000 ns', 'c8-1: 8000');
    expect(fault.code).toBe('unit/missing');
    const action = actions.find(({ title }) => /\bns\b/.test(title));
    expect(faultsOf(await apply(action))).toEqual([]);
    expect(client.textOf(MACHINE)).toBe(readExample());
  });

  it('offer 500 ns for 500 ms', async () => {
    const { fault, actions } = await fixesAfter('c8-1: 8000 ns', 'c8-1: 500 ms');
    expect(fault.code).toMatch(/^unit\/implausible/);
    await apply(actions.find(({ title }) => title.includes('500 ns')));
    expect(client.textOf(MACHINE)).toBe(readExample().replace('c8-1: 8000 ns', 'c8-1: 500 ns'));
  });

  it('bring a setting up to date, and keep the comment of its line', async () => {
    const { fault, actions } = await fixesAfter(
      'drive-x:  { sheet: generic/microstep-drive-50v, at: cabinet, set: { microsteps: 8,',
      'drive-x:  { sheet: generic/microstep-drive-50v, at: cabinet, set: { microsteps: 16,',
    );
    expect(wordsOf(fault)).toMatch(/160.*320|320.*160/s);
    const [action] = actions;
    expect(faultsOf(await apply(action)).map(lineOf)).toEqual([]);
    expect(client.textOf(MACHINE)).toMatch(/c1-1: 320(?:\.000)? \/mm, .*# scale/);
  });

  it('correct a misspelt word', async () => {
    const { fault, actions } = await fixesAfter('contact: normally-closed', 'contact: normally-closd');
    expect(wordsOf(fault)).toContain('normally-closd');
    await apply(actions[0]);
    expect(client.textOf(MACHINE)).toBe(readExample());
  });

  it('use the line ends of the text', async () => {
    await write(readExample().replace('c8-1: 8000 ns', 'c8-1: 8000').replaceAll('\n', '\r\n'));
    const faults = faultsOf(await client.waitForDiagnostics(MACHINE));
    const action = (await client.codeActions(MACHINE, faults)).find(({ title }) => /\bns\b/.test(title));
    await apply(action);
    expect(client.textOf(MACHINE)).toBe(readExample().replaceAll('\n', '\r\n'));
  });
});

describe('findings of the stories', () => {
  it('stop a 30 V panel on a 48 V supply with both figures', async () => {
    const faults = faultsOf(
      await write(
        readExample().replace(
          'logic-psu:       { sheet: generic/supply-24v, ',
          'logic-psu:       { sheet: generic/supply-48v, ',
        ),
      ),
    );
    const fault = faults.find((each) => /panel/.test(wordsOf(each)));
    expect(fault).toMatchObject({ severity: 1, code: expect.stringMatching(/^power\//) });
    expect(wordsOf(fault as Diagnostic)).toMatch(/48 V/);
    expect(wordsOf(fault as Diagnostic)).toMatch(/20\.\.30 V/);
  });
});

describe('names', () => {
  beforeEach(() => write(readExample()));

  async function definitionOf(text: string, offset: number) {
    const answer = await client.request<Location | Location[] | LocationLink[] | null>(
      'textDocument/definition',
      {
        textDocument: { uri: MACHINE },
        position: client.placeOf(MACHINE, text, offset),
      },
    );
    return [answer ?? []]
      .flat()
      .map((each) =>
        'targetUri' in each
          ? { uri: each.targetUri, range: each.targetSelectionRange }
          : { uri: each.uri, range: each.range },
      );
  }
  const lineAt = (line: number) => client.textOf(MACHINE).split('\n')[line];

  it('lead from an axis to its drive', async () => {
    const [place] = await definitionOf('drive:        drive-x', 15);
    expect(place?.uri).toBe(MACHINE);
    expect(lineAt(place?.range.start.line ?? -1)).toMatch(/^ {2}drive-x: /);
  });

  it('lead from a part to its sheet beside the machine', async () => {
    const [place] = await definitionOf('sheets/four-axis-bench-panel.part.yaml', 4);
    expect(place?.uri).toBe(uriOf('examples/gantry-router/sheets/four-axis-bench-panel.part.yaml'));
  });

  it('lead from a part to a sheet that ships', async () => {
    const [place] = await definitionOf('generic/microstep-drive-50v', 10);
    expect(place?.uri).toMatch(/microstep-drive-50v\.part\.yaml$/);
  });

  it('lead from a terminal into the sheet that has it', async () => {
    const places = await definitionOf('panel.PX', 7);
    const sheet = readExampleSheet();
    const inSheet = places.find(({ uri }) => uri.endsWith('four-axis-bench-panel.part.yaml'));
    expect(sheet.split('\n')[inSheet?.range.start.line ?? -1]).toMatch(/\bPX\b/);
  });

  it('lead from the part before the dot to the part', async () => {
    const [place] = await definitionOf('panel.PX', 2);
    expect(lineAt(place?.range.start.line ?? -1)).toMatch(/^ {2}panel:/);
  });

  it('are outlined', async () => {
    const symbols = await client.request<DocumentSymbol[]>('textDocument/documentSymbol', {
      textDocument: { uri: MACHINE },
    });
    const names = symbols.map(({ name }) => name);
    expect(names).toEqual(expect.arrayContaining(['parts', 'wiring', 'axes', 'spindle']));
    const axes = symbols.find(({ name }) => name === 'axes');
    expect(axes?.children?.map(({ name }) => name)).toEqual(['X', 'Y', 'Z', 'A']);
  });
});

function readExampleSheet(): string {
  return fs.readFileSync(
    new URL(uriOf('examples/gantry-router/sheets/four-axis-bench-panel.part.yaml')),
    'utf8',
  );
}
