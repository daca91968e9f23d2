import fs from 'node:fs';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { CLI, git, makeFolder, type Ran, runCli, runProgram, writeFile } from '../support/cli.ts';
import { EXAMPLE_FILE, EXAMPLE_FOLDER, readExample, wordsOf } from '../support/example.ts';
import { ROOT, startClient, uriOf } from '../support/lsp-client.ts';

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) fs.rmSync(folder, { recursive: true });
});
function newFolder(files: Readonly<Record<string, string>>): string {
  const folder = makeFolder(files);
  folders.push(folder);
  return folder;
}
const sheet = fs.readFileSync(path.join(EXAMPLE_FOLDER, 'sheets/four-axis-bench-panel.part.yaml'), 'utf8');
const SHEET = 'sheets/four-axis-bench-panel.part.yaml';

/** Slips of many kinds in one text, the example's. */
const slips = (text: string): string =>
  text
    .replace('c8-1: 8000 ns', 'c8-1: 8000')
    .replaceAll('microsteps: 8', 'microsteps: 16')
    .replace('top-frequency:   400.0 Hz', 'top-frequency:   50.0 Hz')
    .replace('panel.PX -> drive-x.PUL-', 'panel.PX -> drive-x.PLU-')
    .replace('revision: 7', 'revison: 7');

interface Line {
  readonly code: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
  readonly message: string;
}
const asLine = ({ code, line, column, endLine, endColumn, message }: Line): string =>
  `${code} ${line}:${column}-${endLine}:${endColumn} ${message}`;

test('the command line says what the editor says, word for word and place for place', async () => {
  const text = slips(readExample()).replaceAll('\n', '\r\n');
  const { out } = await runCli(['check', '-', '--stdin-path', EXAMPLE_FILE, '--format', 'json'], ROOT, text);
  const said = (JSON.parse(out) as Line[]).map(asLine);
  const client = await startClient({ pulls: true });
  try {
    const uri = uriOf(EXAMPLE_FILE);
    client.open(uri, text);
    const report = await client.pull(uri);
    const shown = report.kind === 'full' ? report.items : [];
    expect(said.length).toBeGreaterThan(5);
    expect(said).toEqual(
      shown.map((diagnostic) => {
        const { start, end } = diagnostic.range;
        return asLine({
          code: String(diagnostic.code),
          line: start.line + 1,
          column: start.character + 1,
          endLine: end.line + 1,
          endColumn: end.character + 1,
          message: wordsOf(diagnostic),
        });
      }),
    );
  } finally {
    await client.stop();
  }
});

test('results go to standard output and talk to standard error, without colour or progress in a pipe', async () => {
  const { code, out, err } = await runCli(['check', 'examples/*/*.machine.yaml', '--format', 'json'], ROOT);
  expect(code).toBe(0);
  expect(JSON.parse(out)).toBeInstanceOf(Array);
  expect(err).toMatch(/^\d+ files? checked: 0 errors, 0 warnings, \d+ hints?\.\n$/);
});

test('many files on several threads give the same as one after the other', async () => {
  const names = Array.from({ length: 90 }, (_, index) => `m${String(index).padStart(2, '0')}.machine.yaml`);
  const files = names.map((name, index) => [name, `machine: Toy\n${index % 7 === 0 ? 'revison: 1\n' : ''}`]);
  const folder = newFolder(Object.fromEntries(files));
  fs.writeFileSync(path.join(folder, names[5] ?? ''), 'machine: \0');
  const together = await runCli(['check', '--format', 'json', ...names], folder);
  const apart = await Promise.all(
    [1, 2, 3].map((n) => runCli(['check', '--shard', `${n}/3`, '--format', 'json', ...names], folder)),
  );
  const all = apart.flatMap(({ out }) => JSON.parse(out) as { file: string }[]);
  const one = await runCli(['check', '--threads', '1', '--format', 'json', ...names], folder);
  expect(one).toEqual(together);
  const withInput = await runCli(
    ['check', '--threads', '2', ...names.slice(10, 20), '-'],
    folder,
    'machine: Toy\n',
  );
  expect(withInput.err).toMatch(/^11 files checked/);
  expect(together.code).toBe(2);
  expect(together.err).toMatch(/m05\.machine\.yaml is not a text file[\s\S]*89 files checked: 13 errors/);
  expect(JSON.parse(together.out)).toEqual(all.sort((a, b) => (a.file < b.file ? -1 : 1)));
});

async function repository(): Promise<string> {
  const folder = newFolder({
    'a.machine.yaml': readExample(),
    'b/b.machine.yaml': 'machine: Toy\nrevison: 4\n',
    [SHEET]: sheet,
  });
  await git(folder, 'init', '-q');
  await git(folder, 'add', '.');
  await git(folder, 'commit', '-qm', 'Machines');
  return folder;
}
const filesOf = ({ out }: Ran): string[] => [
  ...new Set((JSON.parse(out) as { file: string }[]).map(({ file }) => file)),
];

test('since a revision only what was touched is reported, machines of a touched sheet included', async () => {
  const folder = await repository();
  const since = (...args: string[]) =>
    runCli(['check', '--changed-since', 'HEAD', '--format', 'json', '--fail-on', 'hint', ...args], folder);
  expect(await since()).toMatchObject({
    code: 0,
    out: '[]\n',
    err: expect.stringMatching(/^0 files checked/),
  });

  writeFile(folder, 'c.machine.yaml', 'machine: New\nrevison: 1\n'); // git does not know it yet
  expect(filesOf(await since())).toEqual(['c.machine.yaml']);

  // A new threshold of the sheet is seen on the machine, which was not touched itself.
  writeFile(
    folder,
    SHEET,
    sheet.replace('resistance: 4.7 kohm, on-above: 14 V', 'resistance: 4.7 kohm, on-above: 26 V'),
  );
  const touched = await since();
  expect(filesOf(touched)).toEqual(['a.machine.yaml', 'c.machine.yaml']);
  expect(touched.err).toMatch(/^3 files checked/); // the sheet itself is the third
  expect(filesOf(await since('a.machine.yaml', 'b/b.machine.yaml'))).toEqual(['a.machine.yaml']);
});

test('in a touched file only findings are reported that are new or stand on a changed line', async () => {
  const folder = newFolder({ 'a.machine.yaml': 'machine: Toy\nrevison: 4\nabot: x\n' });
  await git(folder, 'init', '-q');
  await git(folder, 'add', '.');
  await git(folder, 'commit', '-qm', 'With two slips');
  writeFile(
    folder,
    'a.machine.yaml',
    '# now with parts\nmachine: Toy\nrevison: 4\nabot: y\nmain: 230 V 50 Hz\n',
  );
  const { out } = await runCli(['check', '--changed-since', 'HEAD', '--format', 'json'], folder);
  // The slip in line 3 was there before, and its line only moved down.
  expect((JSON.parse(out) as Line[]).map(({ line }) => line)).toEqual([4, 5]);
});

test('what git cannot tell is said in a line', async () => {
  const folder = await repository();
  const outside = newFolder({ 'a.machine.yaml': 'machine: Toy\n' });
  const since = (revision: string, where: string) => runCli(['check', '--changed-since', revision], where);
  expect(await since('no-such', folder)).toMatchObject({
    code: 2,
    out: '',
    err: expect.stringMatching(/there is no revision no-such/),
  });
  expect(await since('--output=x', folder)).toMatchObject({ code: 2, out: '' });
  expect(await since('HEAD', outside)).toMatchObject({
    code: 2,
    err: expect.stringMatching(/not in a git repository/),
  });
  const { code, err } = await runProgram(
    process.execPath,
    [CLI, 'check', '--changed-since', 'HEAD'],
    folder,
    {
      env: { PATH: '/nowhere' },
    },
  );
  expect([code, err]).toEqual([2, expect.stringMatching(/git was not found/)]);
});
