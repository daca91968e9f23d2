import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeEach, describe, expect, test } from 'vitest';
import { runCommand } from '../../server/command/run.ts';
import { readCsv } from '../../server/core/csv.ts';

const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'fettle-settings-'));
const file = path.join(folder, 'mill.machine.yaml');
const list = path.join(folder, 'keyed-in.csv');

const SHEET = `part: Panel, four axes
class: controller
settings:
  P25: { is: travel, axis: X, unit: mm, decimals: 0, span: 1..9999 mm, default: 300 mm }
  P21: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3, span: 1..20000 /mm }
  P24: { is: direction-sense, axis: X, choices: [low, high], default: low }
  P22: { is: pulses-per-length, axis: Y, unit: /mm, decimals: 3, span: 1..20000 /mm }
  P99: { is: none, about: "Language, \\"as shown\\"", choices: [one, two], default: one }
`;
const TEXT = `machine: Toy mill
parts:
  panel: { sheet: panel.part.yaml, set: { P21: 320.000 /mm } }   # card 2
  drive-x: { class: drive, settings: { microsteps: { is: microsteps, choices: [8, 16] } }, set: { microsteps: 16 } }
  motor-x: { class: motor, facts: { step-angle: 1.8 deg } }
axes:
  X: { drive: drive-x, motor: motor-x, screw: { lead: 5 mm }, travel: 640 mm }
  Y: { drive: drive-x, motor: motor-x, rack: { module: 1 mm, teeth: 20 }, gearing: 5:1, travel: 900 mm }
`;
beforeEach(() => {
  fs.writeFileSync(path.join(folder, 'panel.part.yaml'), SHEET);
  fs.writeFileSync(file, TEXT);
});
afterAll(() => fs.rmSync(folder, { recursive: true }));

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const streams = { out: (part: string) => (out += part), err: (part: string) => (err += part) };
  return { code: await runCommand(['settings', file, ...args], streams), out, err };
}

describe('the sheet', () => {
  test('says what to key in, in the order of the part, and marks what differs', async () => {
    const { code, out } = await run('--part', 'panel');
    expect(code).toBe(1);
    expect(out.split('\n')).toEqual([
      'panel: Panel, four axes',
      '* P25  640 mm       now 300 mm; travel of X: 640 mm',
      '* P21  640.000 /mm  now 320.000 /mm; pulses per length of X: 3200 × 1 / 5 mm = 640 /mm; -320 mm over the travel as it stands',
      '  P24  low          Which level of the direction signal moves the axis in its plus direction (axis X).',
      '* P22  254.648 /mm  now not set; pulses per length of Y: 3200 × 5 / (π × 1 mm × 20) = 254.648 /mm; rounded to 3 decimals',
      '  P99  one          Language, "as shown"',
      '',
    ]);
  });

  test('is a table by RFC 4180', async () => {
    const { out } = await run('--part', 'panel', '--format', 'csv');
    const read = readCsv(out);
    const rows = read.kind === 'table' ? read.rows.map(({ fields }) => fields) : [];
    expect(rows[0]).toEqual([
      'part',
      'setting',
      'meaning',
      'now',
      'key in',
      'state',
      'why',
      'rounding',
      'source',
    ]);
    expect(rows[3]?.slice(0, 6)).toEqual([
      'panel',
      'P24',
      'Which level of the direction signal moves the axis in its plus direction (axis X).',
      'low',
      'low',
      'free',
    ]);
    expect(rows[5]?.[2]).toBe('Language, "as shown"');
    expect(out.endsWith('\r\n')).toBe(true);
  });

  test('is data', async () => {
    const { out } = await run('--format', 'json');
    const parts = JSON.parse(out) as { part: string; settings: Record<string, string>[] }[];
    expect(parts.map(({ part }) => part)).toEqual(['panel', 'drive-x']);
    expect(parts[0]?.settings[1]).toMatchObject({
      setting: 'P21',
      now: '320.000 /mm',
      origin: 'set',
      keyIn: '640.000 /mm',
      state: 'differs',
      source: 'follows from the definition, rounded as the part shows it',
    });
    expect(parts[1]?.settings[0]).toMatchObject({
      setting: 'microsteps',
      state: 'free',
      why: 'Yours to choose; pulses per turn of X and pulses per turn of Y follow from it.',
    });
  });

  test('does not ask for what rests on a faulty figure', async () => {
    fs.writeFileSync(file, TEXT.replace('lead: 5 mm', 'lead: 5000000 mm'));
    const { out } = await run('--part', 'panel');
    expect(out).toMatch(/ {2}P21 {2}320\.000 \/mm +What it rests on is at fault; see the findings\./);
  });

  test.each([
    [['--part', 'panl'], 'there is no part panl; did you mean panel?'],
    [['--part', 'motor-x'], 'motor-x has nothing to set.'],
    [['--adopt'], '--adopt needs --compare with the table of what was keyed in.'],
    [['--compare', 'nowhere.csv'], 'nowhere.csv does not exist.'],
  ])('%j is refused in words that help', async (args, words) => {
    const { code, out, err } = await run(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
  });
});

describe('what was keyed in', () => {
  const compare = (csv: string, ...args: readonly string[]) => {
    fs.writeFileSync(list, csv);
    return run('--compare', list, ...args);
  };

  test('agrees up to the last decimal, in any unit', async () => {
    const csv = 'setting,value\r\nP21,640.0\r\nP25,64 cm\r\npanel.P24,low\r\nP22,254.6480\r\nP99,one\r\n';
    expect(await compare(csv)).toEqual({ code: 0, out: '', err: '5 agree, 0 differ.\n' });
  });

  test('is reported where it drifted, with its line', async () => {
    const { code, out, err } = await compare('P21;320\nP24;up\nP26;1\nP22;"254.60"\n');
    expect(code).toBe(1);
    expect(out.split('\n')).toEqual([
      'line 1: P21 is keyed in as 320; the definition asks for 640.000 /mm (pulses per length of X: 3200 × 1 / 5 mm = 640 /mm)',
      'line 2: P24 is keyed in as up: “up” is not a value that it takes.',
      'line 3: P26 is keyed in as 1: No part has a setting of this name. Did you mean P25?',
      'line 4: P22 is keyed in as 254.60; the definition asks for 254.648 /mm (pulses per length of Y: 3200 × 5 / (π × 1 mm × 20) = 254.648 /mm)',
      'not in the list: panel.P25, to be 640 mm',
      'not in the list: panel.P99, to be one',
      '',
    ]);
    expect(err).toBe('0 agree, 2 differ, 2 cannot be compared, 2 not in the list.\n');
  });

  test('becomes the list of what to key in again', async () => {
    const { out } = await compare('P21,320\nP24,low\n', '--format', 'csv');
    expect(out).toBe('setting,value\r\nP21,640.000 /mm\r\n');
  });

  test('is written into the definition when that is asked for, and nothing else changes', async () => {
    const { code, out } = await compare('P21,639.9\nP25,640\nP24,high\n', '--adopt');
    expect([code, out]).toEqual([0, 'parts.panel.P21 639.900 /mm\nparts.panel.P24 high\n']);
    expect(fs.readFileSync(file, 'utf8')).toBe(
      TEXT.replace('{ P21: 320.000 /mm }', '{ P21: 639.900 /mm, P24: high }'),
    );
    expect(fs.readdirSync(folder).sort()).toEqual(['keyed-in.csv', 'mill.machine.yaml', 'panel.part.yaml']);
  });

  test.each([
    ['P21\n', 'line 1: two columns are needed, setting and value, as in P21,320.'],
    ['P21,"320\n', 'the quote that opens on line 1 is never closed.'],
  ])('%j is refused', async (csv, words) => {
    const { code, err } = await compare(csv);
    expect(code).toBe(2);
    expect(err).toContain(words);
  });
});
