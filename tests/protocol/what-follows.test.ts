import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { CodeAction, Hover } from 'vscode-languageserver/node';
import type { TriedValues } from '../../server/protocol/private.ts';
import { type Client, startClient } from '../support/lsp-client.ts';

const URI = 'untitled:mill.machine.yaml';
const TEXT = `machine: Toy mill
parts:
  panel: { class: controller, settings: { P21: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3 }, P25: { is: pulses-per-length, axis: Y, unit: /mm, decimals: 3 }, P26: { is: travel, axis: X, unit: mm, decimals: 0, default: 100 mm } }, set: { P21: 160.000 /mm, P25: 160.000 /mm } }   # card 2
  drive: { class: drive, settings: { microsteps: { is: microsteps, choices: [8, 16] } }, set: { microsteps: 8 } }
  motor: { class: motor, facts: { step-angle: 1.8 deg } }
axes:
  X: { drive: drive, motor: motor, screw: { lead: 10 mm }, travel: 100 mm }
  Y: { drive: drive, motor: motor, screw: { lead: 10 mm } }
`;

let [linking, plain] = [] as unknown as [Client, Client];
beforeAll(async () => {
  [linking, plain] = await Promise.all([
    startClient({ initializationOptions: { commandLinks: true } }),
    startClient(),
  ]);
  for (const client of [linking, plain]) client.open(URI, TEXT);
});
afterAll(() => Promise.all([linking.stop(), plain.stop()]));

const markdownOf = (hover: Hover | null): string => {
  const contents = hover?.contents;
  return typeof contents === 'object' && 'value' in contents ? contents.value : '';
};
const tryValue = (path: string, value: string, uri = URI) =>
  linking.request<TriedValues | null>('fettle/tryValues', { uri, changes: [{ path, value }] });

describe('another value, from a hover', () => {
  const at = (client: Client, text: string, offset = 1) =>
    client.hover(URI, client.placeOf(URI, text, offset));

  test('is a link where the client runs our commands, with what the command needs', async () => {
    const text = markdownOf(await at(linking, '8 } }'));
    const [, given = ''] = /\[Try another value\]\(command:fettle\.tryValue\?(\S+) /.exec(text) ?? [];
    expect(JSON.parse(decodeURIComponent(given))).toEqual([URI, 'parts.drive.set.microsteps', '8']);
  });

  test('is told in words elsewhere', async () => {
    const text = markdownOf(await at(plain, '10 mm }, travel'));
    expect(text).toContain('`fettle explain FILE --set "axes.X.screw.lead=VALUE"`');
    expect(text).not.toContain('command:');
  });

  test('is not offered on keys, names and links', async () => {
    for (const [text, offset] of [
      ['screw:', 2],
      ['  panel:', 3],
      ['machine: Toy', 10],
    ] as const)
      expect(markdownOf(await at(linking, text, offset))).not.toContain('command:');
  });

  test('shows what would change as a table, and changes nothing', async () => {
    const answer = await tryValue('parts.drive.set.microsteps', '16');
    expect(answer?.markdown).toContain('# With `parts.drive.set.microsteps` `16` in place of `8`\n');
    expect(answer?.markdown).toContain('| pulses per length of X | `160 /mm` | `320 /mm` |\n');
    expect(answer?.markdown).toContain(
      '## Findings that come\n\n- **warning** P21 of panel says 160.000 /mm',
    );
    expect(linking.textOf(URI)).toBe(TEXT);
    expect((await tryValue('axes.X.screw.lead', '10 mm'))?.markdown).toContain(
      'Nothing that is computed changes.',
    );
  });

  test('is refused in words that help, and unknown for what is not open', async () => {
    expect((await tryValue('axes.X.screw.leed', '5 mm'))?.refused).toMatch(
      /Did you mean axes\.X\.screw\.lead\?/,
    );
    expect(await tryValue('axes.X.screw.lead', '5 mm', 'untitled:other.machine.yaml')).toBeNull();
  });
});

describe('what follows from a change', () => {
  beforeEach(async () => {
    plain.swap(URI, 'set: { microsteps: 8 }', 'set: { microsteps: 16 }');
    await plain.waitForDiagnostics(URI);
  });

  const settingsFound = async () =>
    (await plain.waitForDiagnostics(URI)).filter(({ code }) => String(code).startsWith('setting/'));
  const actionsAt = (text: string, offset: number) => {
    const position = plain.placeOf(URI, text, offset);
    return plain.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri: URI },
      range: { start: position, end: position },
      context: { diagnostics: [] },
    });
  };

  test('is updated by one action, at the figure that was changed', async () => {
    const actions = await actionsAt('microsteps: 16 }', 13);
    const [update] = actions;
    expect(update?.title).toBe('Update the 2 settings that follow from this');
    plain.applyEdit(update?.edit);
    expect(plain.textOf(URI)).toBe(
      TEXT.replace('microsteps: 8 }', 'microsteps: 16 }').replaceAll('160.000', '320.000'),
    );
    expect(await settingsFound()).toEqual([]);
    expect((await actionsAt('microsteps: 16 }', 13)).map(({ title }) => title).join()).not.toContain(
      'Update',
    );

    plain.swap(URI, 'microsteps: 16 }', 'microsteps: 8 }');
    await plain.waitForDiagnostics(URI);
    const all = (await actionsAt('P21: 320', 6)).find(({ title }) => title.startsWith('Update all'));
    expect(all?.title).toBe('Update all 2 settings that follow');
    plain.applyEdit(all?.edit);
    expect(plain.textOf(URI)).toBe(TEXT);
    expect(await settingsFound()).toEqual([]);
  });
});
