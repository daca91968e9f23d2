import fs from 'node:fs';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { readCsv } from '../../server/core/csv.ts';
import { makeFolder, runHere } from '../support/cli.ts';
import { EXAMPLE_FILE } from '../support/example.ts';

const folder = makeFolder({ 'psu.part.yaml': 'part: Supply\nclass: supply\n' });
afterAll(() => fs.rmSync(folder, { recursive: true }));
const commission = (...args: readonly string[]) => runHere(['commission', ...args]);

interface Step {
  readonly id: string;
  readonly result: { readonly state: string };
}

test('every format lists every step', async () => {
  const json = await commission('--format', 'json', EXAMPLE_FILE);
  const steps = JSON.parse(json.out) as Step[];
  expect(json.code).toBe(1);
  expect(steps.length).toBeGreaterThan(50);
  const csv = readCsv((await commission('--format', 'csv', EXAMPLE_FILE)).out);
  expect(csv.kind === 'table' && csv.rows.slice(1).map(({ fields }) => fields[1])).toEqual(
    steps.map(({ id }) => id),
  );
  const [text, markdown] = await Promise.all(
    ['text', 'markdown'].map(async (format) => (await commission('--format', format, EXAMPLE_FILE)).out),
  );
  for (const { id } of steps) {
    expect(text).toContain(`(${id})`);
    expect(markdown).toContain(`\`${id}\``);
  }
});

test('only what is left, and how much that is', async () => {
  const { out, err } = await commission('--left', '--format', 'json', EXAMPLE_FILE);
  const left = JSON.parse(out) as Step[];
  expect(left.every(({ result }) => result.state !== 'done')).toBe(true);
  expect(left.some(({ id }) => id === 'scale:X')).toBe(false); // the example's records have it
  expect(err).toBe(`${left.length} of ${left.length + 5} steps left.\n`); // four scales and the spindle's readings
});

test('one stage', async () => {
  const { out } = await commission('--stage', 'scales', '--format', 'json', EXAMPLE_FILE);
  expect((JSON.parse(out) as Step[]).map(({ id }) => id)).toEqual([
    'scale:X',
    'scale:Y',
    'scale:Z',
    'scale:A',
  ]);
});

test('a file is written whole, and not over another one unless that is asked for', async () => {
  const file = path.join(folder, 'list.md');
  expect((await commission('-o', file, '--format', 'markdown', EXAMPLE_FILE)).err).toContain(
    `Wrote ${file}.`,
  );
  const written = fs.readFileSync(file, 'utf8');
  fs.writeFileSync(file, 'mine');
  expect(await commission('-o', file, EXAMPLE_FILE)).toMatchObject({
    code: 2,
    err: expect.stringMatching(/is there already; give --overwrite/),
  });
  expect(fs.readFileSync(file, 'utf8')).toBe('mine');
  await commission('-o', file, '--overwrite', '--format', 'markdown', EXAMPLE_FILE);
  expect(fs.readFileSync(file, 'utf8')).toBe(written);
  expect(fs.readdirSync(folder).sort()).toEqual(['list.md', 'psu.part.yaml']); // nothing is left beside it
});

test.each([
  [[path.join(folder, 'psu.part.yaml')], /is a part sheet; commission takes a machine/],
  [['--stage', 'scale', EXAMPLE_FILE], /there is no stage scale; take one of isolated/],
  [[], /commission takes one machine/],
  [['-o', path.join(folder, 'none/list.md'), EXAMPLE_FILE], /cannot be written: its folder does not exist/],
] as const)('%j is refused in words that help', async (args, words) => {
  expect(await commission(...args)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(words) });
});
