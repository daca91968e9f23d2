import { execFileSync } from 'node:child_process';
import fs from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { CLI, runCli, runProgram } from '../support/cli.ts';
import { EXAMPLE_FILE } from '../support/example.ts';
import { makeFolder } from '../support/folder.ts';
import { ROOT } from '../support/lsp-client.ts';

/** A disk of 64 kB, which only root can mount. Where it cannot be had the device that is always full stands for it. */
const CANNOT_RUN = 2;

describe.runIf(canMount())('a disk that is full', () => {
  let folder: string;
  beforeEach(() => {
    folder = makeFolder();
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder]);
  });
  afterEach(() => {
    execFileSync('umount', [folder]);
    fs.rmSync(folder, { recursive: true, force: true });
  });

  it('is said, and neither half a file nor a scrap is left', async () => {
    const file = path.join(folder, 'report.html');
    const { code, err } = await runCli(['report', EXAMPLE_FILE, '-o', file], ROOT);
    expect(code).toBe(CANNOT_RUN);
    expect(err).toContain('the disk is full');
    expect(fs.readdirSync(folder)).toEqual([]);
  });

  it('leaves the file that was there as it was', async () => {
    const file = path.join(folder, 'report.html');
    fs.writeFileSync(file, 'the report of yesterday');
    const { code } = await runCli(['report', EXAMPLE_FILE, '-o', file, '--overwrite'], ROOT);
    expect(code).toBe(CANNOT_RUN);
    expect(fs.readFileSync(file, 'utf8')).toBe('the report of yesterday');
    expect(fs.readdirSync(folder)).toEqual(['report.html']);
  });
});

it('a result that cannot be written is said, and does not pass for findings', async () => {
  const command = `'${process.execPath}' '${CLI}' report '${EXAMPLE_FILE}' > /dev/full`;
  const { code, err } = await runProgram('sh', ['-c', command], ROOT);
  expect(code).toBe(CANNOT_RUN);
  expect(err).toBe('fettle: the result cannot be written: the disk is full.\n');
});

it('a device is not written to as if it were a file', async () => {
  const { code, err } = await runCli(['report', EXAMPLE_FILE, '-o', '/dev/full', '--overwrite'], ROOT);
  expect(code).toBe(CANNOT_RUN);
  expect(err).toContain('not a plain file');
});

function canMount(): boolean {
  const folder = makeFolder();
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder], { stdio: 'ignore' });
    execFileSync('umount', [folder], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  } finally {
    fs.rmSync(folder, { recursive: true, force: true });
  }
}
