import fs from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { runCommand } from '../../server/command/run.ts';
import { CARRIERS, MAINS_CHOICES } from '../../server/core/start/machine.ts';
import { makeFolder, runHere } from '../support/cli.ts';

const folder = makeFolder();
afterAll(() => fs.rmSync(folder, { recursive: true }));
const at = (name: string) => path.join(folder, name);
const begin = (...args: readonly string[]) => runHere(['new', ...args]);
const read = (name: string) => fs.readFileSync(at(name), 'utf8');

test('a machine from options, without errors or warnings', async () => {
  const { code, out, err } = await begin(
    'machine',
    at('a.machine.yaml'),
    '--name',
    'Garden router',
    '--axes',
    'xyz',
    '--spindle',
    'yes',
  );
  expect([code, out]).toEqual([0, '']);
  expect(err).toMatch(/^Wrote .*a\.machine\.yaml\. Next: .*"fettle check .*" tells/);
  expect(read('a.machine.yaml')).toMatch(/^machine: Garden router\n/m);
  expect(await runHere(['check', at('a.machine.yaml')])).toMatchObject({ code: 0 });
});

describe.each(Object.keys(CARRIERS))('with %s', (carrier) => {
  test.each(['X', 'XYZ', 'XYZA', 'XZC', 'XYZABCUVW'])('and the axes %s nothing is wrong', async (axes) => {
    for (const mains of MAINS_CHOICES) {
      const { out } = await begin(
        'machine',
        '-',
        '--name',
        'x',
        '--axes',
        axes,
        '--carrier',
        carrier,
        '--mains',
        mains,
        '--spindle',
        'yes',
      );
      const checked = await runHere(['check', '-', '--fail-on', 'error'], out);
      expect(checked, checked.out).toMatchObject({ code: 0 });
    }
  });
});

/** Runs the command with a person who gives these answers, one after the other. */
async function withAnswers(args: readonly string[], ...answers: readonly (string | undefined)[]) {
  const asked: string[] = [];
  let [out, err] = ['', ''];
  const code = await runCommand(['new', ...args], {
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    ask: async (prompt) => answers[asked.push(prompt) - 1],
  });
  return { code, out, err, asked };
}

describe('questions', () => {
  test('ask what no option answers; an empty answer takes the usual one', async () => {
    const { code, out, asked } = await withAnswers(['machine', '-', '--axes', 'XY'], 'Toy', '', '', 'yes');
    expect(code).toBe(0);
    expect(asked.map((prompt) => prompt.split(/:| [([]/)[0])).toEqual([
      'What is the machine called',
      'Supply network',
      'Carrier of the linear axes',
      'A spindle with a frequency converter',
    ]);
    expect(out).toMatch(/machine: Toy\n[\s\S]*mains: 230 V 50 Hz\n[\s\S]*lead: 5 mm[\s\S]*spindle:/);
  });

  test('ask again after an answer that is not understood, and end after three', async () => {
    const again = await withAnswers(
      ['machine', '-', '--name', 'x', '--mains', '230 V 50 Hz', '--spindle', 'no'],
      'XQ',
      'XY',
      'sprew-5',
      'belt',
    );
    expect(again.code).toBe(0);
    expect(again.err).toContain('Q is no axis; the letters of ISO 841 are X Y Z A B C U V W.');
    const ended = await withAnswers(['part', '-', '--name', 'x'], 'nothing', 'of', 'that');
    expect(ended).toMatchObject({ code: 2, out: '', err: expect.stringMatching(/nothing was written/) });
  });

  test('broken off, nothing is written', async () => {
    expect(await withAnswers(['machine', '-'], undefined)).toMatchObject({
      code: 2,
      out: '',
      err: expect.stringMatching(/broken off/),
    });
  });
});

test('a part sheet with its terminals', async () => {
  const { code, out, err } = await begin(
    'part',
    '-',
    '--name',
    'Two-amp drive: small',
    '--class',
    'drive',
    '--terminals',
    'PUL+ PUL- #1',
  );
  expect(code).toBe(0);
  expect(out).toMatch(/terminals: \[PUL\+, PUL-, "#1"\]/);
  expect(out).toContain('#   direction: timing of the direction\n');
  expect(err).toContain('timing of the direction: needs a circuit that is, or does, direction\n');
  expect(err).toMatch(/pulses per turn of X.*: needs a setting that is microsteps\n/);
  const checked = await runHere(['check', '-', '--stdin-path', at('x.part.yaml'), '--fail-on', 'error'], out);
  expect(checked, checked.out).toMatchObject({ code: 0 });
});

test('a file that is there stays unless it may be overwritten', async () => {
  fs.writeFileSync(at('mine.machine.yaml'), 'mine');
  const args = ['machine', at('mine.machine.yaml'), '--name', 'x'];
  expect(await begin(...args)).toMatchObject({ code: 2, err: expect.stringMatching(/is there already/) });
  expect(read('mine.machine.yaml')).toBe('mine');
  expect((await begin(...args, '--overwrite')).code).toBe(0);
  expect(read('mine.machine.yaml')).toContain('machine: x');
});

test.each([
  [[], /new takes machine or part/],
  [['machne'], /new takes machine or part/],
  [['machine', '-'], /--name is missing: what is the machine called\?/],
  [['machine', '-', '--name', 'x', '--axes', 'XQ'], /--axes: Q is no axis/],
  [['machine', '-', '--name', 'x', '--carrier', 'srew-5'], /--carrier: .*did you mean screw-5\?/],
  [['machine', '-', '--name', 'x', '--mains', 'lots'], /--mains: /],
  [['machine', '-', '--name', 'x', '--spindle', 'maybe'], /--spindle: Say yes or no/],
  [['machine', 'router.yaml', '--name', 'x'], /call it NAME\.machine\.yaml/],
  [['part', '-', '--name', 'x', '--class', 'drve'], /--class: .*did you mean drive\?/],
] as const)('%j is refused in words that help', async (args, words) => {
  expect(await begin(...args)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(words) });
});
