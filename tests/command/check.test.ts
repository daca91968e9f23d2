import fs from 'node:fs';
import path from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import published from '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json' with { type: 'json' };
import { Ajv } from 'ajv';
import { afterAll, describe, expect, test } from 'vitest';
import { makeFolder, runHere, runProgram } from '../support/cli.ts';

const CLEAN = 'machine: Toy lathe\n';
const WARNED =
  'machine: Toy lathe\nparts:\n  psu: { sheet: generic/supply-24v }\n  lamp: { sheet: generic/no-such }\n';
const UNKNOWN = 'machine: Toy lathe\nrevison: 4\n';

const folder = makeFolder({
  'clean.machine.yaml': CLEAN,
  'unknown.machine.yaml': UNKNOWN,
  'warned.machine.yaml': WARNED,
  'silenced.machine.yaml': `# fettle silence-file shape/unknown-key: for now\n${UNKNOWN}`,
  'deep/er/down.machine.yaml': CLEAN,
  'odd[1].machine.yaml': CLEAN,
  'binary.machine.yaml': 'machine: \0\x01\n',
  'signs.machine.yaml': `machine: Toy\n"\u001b[31m<&>'": 1\n`,
});
afterAll(() => fs.rmSync(folder, { recursive: true }));
const at = (name: string) => path.join(folder, name);
const check = (...args: readonly string[]) => runHere(['check', ...args]);

test('a finding comes with the lines it is about and a mark under its place', async () => {
  const { code, out, err } = await check(at('unknown.machine.yaml'));
  expect(code).toBe(1);
  const [head, ...frame] = out.split('\n');
  expect(head).toMatch(/unknown\.machine\.yaml:2:1: error: .*revision.* \[shape\/unknown-key\]$/);
  expect(frame.slice(0, 3)).toEqual(['  1 | machine: Toy lathe', '  2 | revison: 4', '    | ^^^^^^^']);
  expect(err).toBe('1 file checked: 1 error, 0 warnings, 0 hints.\n');
});

test('colours are for terminals alone, and nothing in a file steers the terminal', async () => {
  const escapes = (text: string) => text.split('\u001b').length - 1;
  const plain = await runHere(['check', at('signs.machine.yaml')]);
  const coloured = await runHere(['check', at('signs.machine.yaml')], '', true);
  expect(plain.code).toBe(1);
  expect(escapes(plain.out)).toBe(0);
  expect(escapes(coloured.out)).toBeGreaterThan(4);
  expect(stripVTControlCharacters(coloured.out)).toBe(plain.out);
});

test('a long line is cut around the place', async () => {
  const line = `about: ${'word '.repeat(60)}`;
  const { out } = await runHere(
    ['check', '-'],
    `machine: Toy\nparts: { a: { sheet: generic/supply-24v, about: "${'x'.repeat(200)}", shet: 1 } }\n${line}\n`,
  );
  expect(out).toMatch(/^ {2}2 \| ….*shet: 1/m);
  for (const shown of out.split('\n').filter((each) => /^ +\d* \|/.test(each)))
    expect(shown.length).toBeLessThan(120);
});

describe('what makes a check fail', () => {
  test.each([
    ['unknown.machine.yaml', 'warning', 1],
    ['unknown.machine.yaml', 'error', 1],
    ['unknown.machine.yaml', 'never', 0],
    ['clean.machine.yaml', 'hint', 0],
  ] as const)('%s with --fail-on %s gives %i', async (name, word, code) => {
    expect((await check('--fail-on', word, at(name))).code).toBe(code);
  });
});

describe('which files', () => {
  test('a pattern that the shell left alone means all that fit, at any depth', async () => {
    const { err } = await check(`${folder}/**/{clean,down}.machine.yaml`);
    expect(err).toMatch(/^2 files checked/);
  });

  test('a name that exists is that file, whatever signs are in it', async () => {
    expect((await check(at('odd[1].machine.yaml'))).code).toBe(0);
  });

  test('standard input is checked as the file that it is said to be', async () => {
    const sheet = await runHere(
      ['check', '-', '--stdin-path', at('x.part.yaml'), '--format', 'json'],
      'machine: Toy\n',
    );
    expect(JSON.parse(sheet.out)).toContainEqual(
      expect.objectContaining({ file: at('x.part.yaml'), code: 'shape/unknown-key' }),
    );
    expect((await runHere(['check', '-'], CLEAN)).code).toBe(0);
  });

  test('shards share the files out among them, each file to one', async () => {
    const names = ['clean', 'unknown', 'warned'].map((name) => at(`${name}.machine.yaml`));
    const shards = await Promise.all(
      ['1/2', '2/2'].map((shard) => check('--shard', shard, '--format', 'junit', ...names)),
    );
    const suites = shards.map(({ out }) =>
      [...out.matchAll(/<testsuite name="([^"]*)"/g)].map(([, name]) => name),
    );
    expect(suites.map((each) => each.length)).toEqual([2, 1]);
    expect(new Set(suites.flat())).toEqual(new Set(names));
  });
});

describe('what cannot be checked gives a clear line and exit code 2', () => {
  test.each([
    [[], /check needs at least one file/],
    [['missing.machine.yaml'], /missing\.machine\.yaml does not exist/],
    [[folder], /it is a folder; name the files in it, e\.g\. .*\/\*\.machine\.yaml/],
    [[at('binary.machine.yaml')], /binary\.machine\.yaml is not a text file/],
    [[`${folder}/none-*.yaml`], /no file is meant by .*none-\*\.yaml/],
    [['--shard', '3/2', at('clean.machine.yaml')], /--shard takes i\/n/],
    [['--threads', '0', at('clean.machine.yaml')], /--threads takes a number from 1 to 64/],
    [['--stdin-path', 'x', at('clean.machine.yaml')], /--stdin-path goes with -/],
    [['--fail-on', 'eror', at('clean.machine.yaml')], /there is no fail-on eror; did you mean error\?/],
    [['--fromat', 'json'], /Unknown option '--fromat'\. Did you mean --format\?/],
  ] as const)('%j', async (args, words) => {
    const { code, out, err } = await check(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(words);
    expect(err).not.toMatch(/internal fault/);
  });

  test('what is no plain file, goes round in circles or is far too large', async () => {
    await runProgram('mkfifo', ['pipe.machine.yaml'], folder);
    fs.symlinkSync(at('circle.machine.yaml'), at('circle.machine.yaml'));
    fs.writeFileSync(at('large.machine.yaml'), `machine: ${'x'.repeat(1_100_000)}\n`);
    const { code, out, err } = await check(
      ...['pipe', 'circle', 'large'].map((name) => at(`${name}.machine.yaml`)),
    );
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/pipe\.machine\.yaml cannot be read: it is not a plain file/);
    expect(err).toMatch(/circle\.machine\.yaml cannot be read: the system could not read it/);
    expect(err).toMatch(/large\.machine\.yaml has \d+ bytes; files of more than 1000000 are not read/);
  });

  test('one bad file does not keep the others from being checked', async () => {
    const { code, out, err } = await check(
      at('missing'),
      at('unknown.machine.yaml'),
      folder,
      at('clean.machine.yaml'),
    );
    expect(code).toBe(2);
    expect(out).toMatch(/shape\/unknown-key/);
    expect(err).toMatch(/missing does not exist[\s\S]*it is a folder[\s\S]*2 files checked/);
  });
});

const ALL = ['clean', 'unknown', 'warned', 'signs', 'missing'].map((name) => at(`${name}.machine.yaml`));

test('JSON is one array, with places that have to do with a finding', async () => {
  const twice = `machine: Toy\nparts:\n  a: { sheet: generic/supply-24v }\n  a: { sheet: generic/supply-48v }\n`;
  const { out } = await runHere(['check', '-', '--format', 'json'], twice);
  expect(JSON.parse(out)).toEqual([
    expect.objectContaining({
      line: 4,
      column: 3,
      endColumn: 4,
      related: [expect.objectContaining({ line: 3, note: expect.stringMatching(/first/) })],
    }),
  ]);
  expect(JSON.parse((await check('--format', 'json', at('clean.machine.yaml'))).out)).toEqual([]);
  expect(JSON.parse((await check('--format', 'json', ...ALL)).out).length).toBeGreaterThan(2);
});

test('SARIF is what the published schema asks for', async () => {
  // The schema of OASIS, as it comes with this package; it is of draft 4, which differs for it in the name of `id`.
  const schema = Object.fromEntries(
    Object.entries(published).filter(([key]) => !['id', '$schema'].includes(key)),
  );
  const validate = new Ajv({
    strict: false,
    validateFormats: false,
    unicodeRegExp: false,
    allErrors: true,
  }).compile(schema);
  for (const files of [[at('clean.machine.yaml')], [at('silenced.machine.yaml')], ALL]) {
    const sarif = JSON.parse((await check('--format', 'sarif', ...files)).out);
    validate(sarif);
    expect(validate.errors).toBeNull();
  }
  const sarif = JSON.parse((await check('--format', 'sarif', ...ALL)).out);
  expect(validate({ ...sarif, version: '2' })).toBe(false);
  const [run] = sarif.runs;
  expect(run.invocations[0]).toMatchObject({ executionSuccessful: false });
  expect(run.results.length).toBeGreaterThan(2);
  for (const { ruleId, ruleIndex } of run.results) expect(run.tool.driver.rules[ruleIndex].id).toBe(ruleId);
});

describe('what somebody silenced', () => {
  const TEXT =
    'machine: Toy\naxes:\n  X: { travel: 640 }  # fettle silence unit/missing: read off the old drawing\n  Y: { travel: 300 }\n';
  const project = makeFolder({
    'some.machine.yaml': TEXT,
    'all.machine.yaml': TEXT.replace('axes:', 'axes: # fettle silence-file unit/missing'),
    'sub/.fettle.yaml': 'silence: { shape: later }\n',
    'sub/by-project.machine.yaml': UNKNOWN,
  });
  afterAll(() => fs.rmSync(project, { recursive: true }));
  const files = ['some', 'all', 'sub/by-project'].map((name) => path.join(project, `${name}.machine.yaml`));

  test('is counted, and does not fail', async () => {
    const { err, code } = await check(...files);
    expect(err).toBe('3 files checked: 1 error, 0 warnings, 0 hints; 4 silenced.\n');
    expect(code).toBe(1);
    expect((await check(...files.slice(1))).code).toBe(0);
  });

  test('is in JSON, with what silences it', async () => {
    const { out } = await check('--format', 'json', ...files);
    const found: { line: number; code: string; silenced?: object }[] = JSON.parse(out);
    expect(found.map(({ line, code, silenced }) => ({ line, code, silenced }))).toEqual([
      { line: 4, code: 'unit/missing', silenced: undefined },
      { line: 3, code: 'unit/missing', silenced: { by: 'line', reason: 'read off the old drawing' } },
      { line: 3, code: 'unit/missing', silenced: { by: 'line', reason: 'read off the old drawing' } },
      { line: 4, code: 'unit/missing', silenced: { by: 'file', reason: '' } },
      { line: 2, code: 'shape/unknown-key', silenced: { by: 'project', reason: 'later' } },
    ]);
  });

  test('is suppressed in SARIF, and every other result says that it is not', async () => {
    const { out } = await check('--format', 'sarif', ...files);
    const [{ results }] = JSON.parse(out).runs;
    expect(results.map(({ suppressions }: { suppressions: unknown }) => suppressions)).toEqual([
      [],
      [{ kind: 'inSource', justification: 'read off the old drawing' }],
      [{ kind: 'inSource', justification: 'read off the old drawing' }],
      [{ kind: 'inSource' }],
      [{ kind: 'external', justification: 'later' }],
    ]);
  });

  test('is a skipped case of JUnit', async () => {
    const { out } = await check('--format', 'junit', ...files);
    expect(out).toMatch(/some\.machine\.yaml" tests="2" failures="1" errors="0" skipped="1"/);
    expect(out).toMatch(/all\.machine\.yaml" tests="3" failures="0" errors="0" skipped="2"/);
    expect(out).toContain('<skipped message="640 has no unit');
  });
});

test('JUnit has a suite for each file, and what cannot be read is an error in it', async () => {
  const { out } = await check('--format', 'junit', ...ALL);
  expect(out.match(/<testsuite /g)).toHaveLength(ALL.length);
  expect(out).toMatch(/clean\.machine\.yaml" tests="1" failures="0" errors="0"/);
  expect(out).toMatch(/unknown\.machine\.yaml" tests="1" failures="1" errors="0"/);
  expect(out).toMatch(/missing\.machine\.yaml" tests="1" failures="0" errors="1"/);
  expect(out).not.toContain('\u001b');
  expect(out).not.toContain('<&>');
  const balance = [...out.matchAll(/<(\/?)([a-z-]+)[^>]*?(\/?)>/g)].reduce(
    (depth, [, closes, , alone]) => depth + (closes ? -1 : alone ? 0 : 1),
    0,
  );
  expect(balance).toBe(0);
});

test('annotations are one line each', async () => {
  const { out } = await check('--format', 'annotations', ...ALL);
  const lines = out.trimEnd().split('\n');
  expect(lines.length).toBeGreaterThan(3);
  for (const line of lines)
    expect(line).toMatch(
      /^::(error|warning|notice) file=[^,:]+(,line=\d+,endLine=\d+,col=\d+,endColumn=\d+,title=[\w/-]+)?::./,
    );
  expect(lines.at(-1)).toMatch(/^::error file=.*missing\.machine\.yaml::.*does not exist/);
});
