import { afterAll, beforeAll, expect, it } from 'vitest';
import { NEW_MACHINE, NEW_SHEET, START_CHOICES, type StartChoices } from '../../server/protocol/private.ts';
import { STANDING_CAUTION } from '../support/example.ts';
import { type Client, startClient, uriOf } from '../support/lsp-client.ts';

let client: Client;
beforeAll(async () => {
  client = await startClient();
});
afterAll(() => client.stop());

it('a machine is begun by answers, keyed in, and has nothing wrong', async () => {
  const choices = await client.request<StartChoices>(START_CHOICES);
  expect(choices.carriers.length).toBeGreaterThan(2);
  const text = await client.request<string>(NEW_MACHINE, {
    name: 'Toy router',
    mains: choices.mains[0],
    axes: ['X', 'Y', 'Z'],
    carrier: choices.carriers[0]?.name,
    spindle: true,
  });
  expect(text).toMatch(/panel:.*set: \{.*320\.000 \/mm/); // 200 × 8 / 5 mm
  const uri = uriOf('examples/begun.machine.yaml');
  client.open(uri, text);
  const found = await client.waitForDiagnostics(uri);
  expect(
    found
      .filter(({ severity = 1, code }) => severity < 3 && !STANDING_CAUTION.test(String(code)))
      .map(({ code }) => code),
  ).toEqual([]);
});

it('a sheet is begun by answers', async () => {
  const text = await client.request<string>(NEW_SHEET, {
    part: 'Lamp',
    partClass: 'load',
    source: 'page 3',
    terminals: ['1', 'V+'],
  });
  const [facts, next] = text.split('\n\n# Next, ');
  expect(facts).toBe('part: Lamp\nclass: load\nsource: page 3\n\nterminals:\n  terminals: [1, V+]');
  expect(next).toMatch(/^its circuits\..*\n# {3}power-in or coil /);
});

it('answers that make no sense are survived', async () => {
  expect(await client.request(NEW_MACHINE, {})).toBeNull();
  expect(await client.request(NEW_SHEET, { terminals: 3 })).toBeNull();
});
