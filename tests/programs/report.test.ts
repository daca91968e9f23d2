import { expect, test } from 'vitest';
import { readCsv } from '../../server/core/csv.ts';
import { runCli } from '../support/cli.ts';
import { EXAMPLE_FILE } from '../support/example.ts';
import { ROOT } from '../support/lsp-client.ts';

const report = (...args: readonly string[]) => runCli(['report', EXAMPLE_FILE, ...args], ROOT);

test('a page, Markdown and text each tell of every axis and every supply', async () => {
  for (const format of ['html', 'markdown', 'text']) {
    const { code, out } = await report('--format', format);
    expect(code).toBe(0);
    for (const name of ['160 /mm', '400 /mm']) expect(out, format).toContain(name);
    expect(out.replaceAll('\\', ''), format).toContain('motor-psu');
  }
});

test('the wiring drawing, and any other picture, is an SVG of its own', async () => {
  const drawing = await report('--format', 'svg');
  expect(drawing.out).toMatch(
    /<svg[^>]* xmlns="http:\/\/www\.w3\.org\/2000\/svg"[\s\S]*drive-x[\s\S]*<\/svg>\s*$/,
  );
  const motion = await report('--format', 'svg', '--item', 'motion:X');
  expect(motion.out).toMatch(/<svg/);
  expect(motion.out).not.toBe(drawing.out);
});

test('a table is CSV, and the tables are named to whoever names none or a wrong one', async () => {
  const { out } = await report('--format', 'csv', '--item', 'parts-list');
  const table = readCsv(out);
  expect(table.kind === 'table' && table.rows.length).toBeGreaterThan(20);
  const none = await report('--format', 'csv');
  expect(none).toMatchObject({
    code: 2,
    out: '',
    err: expect.stringMatching(/name a table with --item; there are axes, supplies, .*parts-list/),
  });
  expect(await report('--format', 'csv', '--item', 'part-list')).toMatchObject({
    code: 2,
    err: expect.stringMatching(/did you mean parts-list\?/),
  });
  expect(await report('--item', 'axes')).toMatchObject({
    code: 2,
    err: expect.stringMatching(/--item goes with/),
  });
  const names = none.err
    .replace(/^.*there are /, '')
    .replace(/\.\n$/, '')
    .split(', ');
  for (const name of names.slice(0, 4))
    expect((await report('--format', 'csv', '--item', name)).code, name).toBe(0);
});

test('numbers as JSON are those that explain tells', async () => {
  const json = JSON.parse((await report('--format', 'json')).out);
  expect(json.values['axes.X.pulses-per-length']).toMatchObject({ value: 160, unit: '/mm' });
});
