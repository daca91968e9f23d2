import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { CLI, git, makeFolder, runCli, runProgram, writeFile } from '../support/cli.ts';
import { EXAMPLE_FOLDER, readExample } from '../support/example.ts';

const SHEET = 'sheets/four-axis-bench-panel.part.yaml';
const sheet = fs.readFileSync(path.join(EXAMPLE_FOLDER, SHEET), 'utf8');
const FILE = 'shop/router.machine.yaml';
const changed = readExample().replace('microsteps: 8', 'microsteps: 16');

let folder = '';
beforeAll(async () => {
  folder = makeFolder({ [FILE]: readExample(), [`shop/${SHEET}`]: sheet, 'notes.txt': 'x' });
  await git(folder, 'init', '-q');
  await git(folder, 'add', '.');
  await git(folder, 'commit', '-qm', 'A machine');
  writeFile(folder, FILE, changed);
});
afterAll(() => fs.rmSync(folder, { recursive: true }));
const diff = (args: readonly string[], where = folder) => runCli(['diff', ...args], where);

test.each([
  ['a revision by option', ['--git', 'HEAD', FILE], ''],
  ['a revision with a file', [`HEAD:${FILE}`, FILE], ''],
  ['from a folder below', ['HEAD:router.machine.yaml', 'router.machine.yaml'], 'shop'],
])('%s is compared with the file, its sheets read from the revision', async (_, args, below) => {
  const { code, out, err } = await diff(args, path.join(folder, below));
  expect([code, err]).toEqual([1, '']);
  expect(out).toContain('  ~ panel.c1-1: 160.000 /mm → 320.000 /mm\n');
  expect(out).toContain('pulses per length of X: 160 /mm → 320 /mm');
  expect(out).not.toContain('sheet-not-found');
  expect(out).not.toContain('\u001b');
});

test('a sheet that changed since the revision is read as it was', async () => {
  writeFile(folder, `shop/${SHEET}`, sheet.replace('top-rate: 40 kHz', 'top-rate: 20 kHz'));
  writeFile(folder, FILE, readExample());
  const { out } = await diff(['--git', 'HEAD', FILE]);
  writeFile(folder, `shop/${SHEET}`, sheet);
  writeFile(folder, FILE, changed);
  expect(out).toContain('~ panel: other facts in sheets/four-axis-bench-panel.part.yaml');
  expect(out).toContain('top feed of X');
});

test('nothing follows from nothing', async () => {
  expect(await diff([FILE, FILE])).toMatchObject({
    code: 0,
    out: '',
    err: 'Nothing follows from what differs.\n',
  });
  expect(await diff(['HEAD:shop/router.machine.yaml', 'HEAD:shop/router.machine.yaml'])).toMatchObject({
    code: 0,
    out: '',
  });
});

test('Markdown, JSON and a page of its own', async () => {
  expect((await diff(['--git', 'HEAD', FILE, '--format', 'markdown'])).out).toMatch(
    /^# Fairground router: what follows[\s\S]*## Settings to key in again\n\n- \*\*changed\*\*/,
  );
  const json = JSON.parse((await diff(['--git', 'HEAD', FILE, '--format', 'json'])).out);
  expect(json.values.find(({ id }: { id: string }) => id === 'axes.X.pulses-per-length')).toMatchObject({
    before: { value: 160, unit: '/mm' },
    after: { value: 320, unit: '/mm' },
    causes: [{ name: 'microsteps', before: '8', after: '16' }],
  });
  expect(json.steps).toContainEqual({ id: 'scale:X', state: 'again' });
  const page = (await diff(['--git', 'HEAD', FILE, '--format', 'html'])).out;
  expect(page).toMatch(
    /^<!doctype html>[\s\S]*<style>[\s\S]+<\/style>[\s\S]*160 \/mm → 320 \/mm[\s\S]*<\/html>\n$/,
  );
  expect(page).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
});

test('git shows consequences after the two lines of set-up, as a driver and by converting to text', async () => {
  fs.writeFileSync(path.join(folder, '.gitattributes'), '*.machine.yaml diff=fettle\n');
  await git(folder, 'config', 'diff.fettle.command', `'${process.execPath}' '${CLI}' diff --driver`);
  const driven = await git(folder, 'diff');
  expect(driven).toMatch(/^fettle diff a\/shop\/router\.machine\.yaml/);
  expect(driven).toContain('panel.c1-1: 160.000 /mm → 320.000 /mm');
  await git(folder, 'config', '--unset', 'diff.fettle.command');
  await git(folder, 'config', 'diff.fettle.textconv', `'${process.execPath}' '${CLI}' diff --textconv`);
  const converted = await git(folder, 'diff');
  expect(converted).toContain('\n-axes.X.pulses-per-length = 160 /mm\n');
  expect(converted).toContain('\n+axes.X.pulses-per-length = 320 /mm\n');
  await git(folder, 'add', '.gitattributes');
  const added = await git(folder, 'diff', '--cached', '--no-ext-diff', '--stat');
  expect(added).toContain('.gitattributes');
});

test.each([
  [['--git', 'no-such', FILE], /there is no revision no-such/],
  [['HEAD:none.machine.yaml', FILE], /none\.machine\.yaml does not exist in HEAD/],
  [['none.machine.yaml', FILE], /none\.machine\.yaml does not exist\./],
  [[FILE], /diff takes two versions/],
  [['--git', 'HEAD', FILE, FILE], /with --git, diff takes one file/],
  [[FILE, `shop/${SHEET}`], /one of the two is a machine and the other a part sheet/],
  [['HEAD:shop', FILE], /shop does not exist in HEAD/],
  [['--driver'], /--driver is for git/],
])('%j is refused in words that help', async (args, words) => {
  expect(await diff(args)).toMatchObject({ code: 2, out: '', err: expect.stringMatching(words) });
});

test('outside a repository and without git that is said', async () => {
  const outside = makeFolder({ 'a.machine.yaml': 'machine: Toy\n' });
  expect(await diff(['--git', 'HEAD', 'a.machine.yaml'], outside)).toMatchObject({
    code: 2,
    err: expect.stringMatching(/not in a git repository/),
  });
  const without = await runProgram(process.execPath, [CLI, 'diff', '--git', 'HEAD', FILE], folder, {
    env: { PATH: '/nowhere' },
  });
  expect(without).toMatchObject({ code: 2, err: expect.stringMatching(/git was not found/) });
  fs.rmSync(outside, { recursive: true });
});
