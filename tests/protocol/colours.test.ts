import { afterAll, beforeAll, expect, it } from 'vitest';
import type { ColorInformation, ColorPresentation, InlayHint } from 'vscode-languageserver/node';
import { readExample } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';
import { VARIANTS } from '../support/marked.ts';

let client: Client;
const uri = uriOf('examples/gantry-router/colours.machine.yaml');
beforeAll(async () => {
  client = await startClient({
    pulls: true,
    capabilities: { textDocument: { inlayHint: { resolveSupport: { properties: ['label.location'] } } } },
  });
});
afterAll(() => client.stop());

const coloursIn = () =>
  client.request<ColorInformation[]>('textDocument/documentColor', { textDocument: { uri } });

it.each([...VARIANTS])('wire colours are swatches, two for a wire of two colours: %s', async (_, vary) => {
  client.open(
    uri,
    vary(
      'about: 🙂 BN\nwiring:\n  - a.BN -> b.BU  GNYE # BN\n  - { link: a.1 -> "🙂.2", wire: 4 mm2 BK, label: BN }\n  - { cable: RD, wire: 20 AWG, links: [a.1 -> b.2  WH-BU] }\n',
    ),
  );
  const colours = await coloursIn();
  const lines = client.textOf(uri).split(/\r?\n/);
  expect(
    colours.map(({ range: { start, end } }) => lines[start.line]?.slice(start.character, end.character)),
  ).toEqual(['GN', 'YE', 'BK', 'WH', 'BU']);
  client.close(uri);
});

it('a colour that is picked becomes the code that is nearest to it', async () => {
  client.open(uri, 'wiring:\n  - a.1 -> b.2  GNYE\n');
  const [green] = await coloursIn();
  const presentations = await client.request<ColorPresentation[]>('textDocument/colorPresentation', {
    textDocument: { uri },
    range: green?.range,
    color: { red: 0.85, green: 0.1, blue: 0.12, alpha: 1 },
  });
  const [first] = presentations;
  expect(first?.label).toBe('RD red');
  client.applyEdit({ changes: { [uri]: first?.textEdit ? [first.textEdit] : [] } });
  expect(client.textOf(uri)).toBe('wiring:\n  - a.1 -> b.2  RDYE\n');
  expect(presentations).toHaveLength(14); // all of IEC 60757
  client.close(uri);
});

it('for a client that knows us, a click on an inline number is a command, since a place alone leads on from there', async () => {
  const own = await startClient({
    initializationOptions: { commandLinks: true },
    capabilities: { textDocument: { inlayHint: { resolveSupport: { properties: ['label.location'] } } } },
  });
  own.open(uri, readExample());
  const [hint] = await own.inlayHints(uri);
  const { label } = await own.request<InlayHint>('inlayHint/resolve', hint);
  const place = { uri: expect.stringMatching(/^file:/), range: expect.anything() };
  expect(label).toMatchObject([{ command: { command: 'fettle.goTo', arguments: [place] } }]);
  await own.stop();
});

it('an inline number leads to what it rests on', async () => {
  client.open(uri, readExample());
  const hints = await client.inlayHints(uri);
  const causes = await Promise.all(
    hints.map(async (hint) => {
      const { label } = await client.request<InlayHint>('inlayHint/resolve', hint);
      return typeof label === 'string' ? undefined : label[0]?.location;
    }),
  );
  expect(causes.filter((cause) => cause === undefined)).toEqual([]);
  const scale = hints.findIndex(({ label }) => typeof label !== 'string' && label[0]?.value === '160 /mm');
  const cause = causes[scale];
  // The first figure of the scale that somebody wrote: the step angle, in the motor's sheet.
  expect(cause?.uri).toMatch(/stepper-57mm-2nm\.part\.yaml$/);
  client.close(uri);
});
