import { execFile } from 'node:child_process';
import { resolve } from 'node:path';
import { say } from '../core/language/say.ts';
import { CommandError } from './command.ts';

const MOST_BYTES = 256_000_000;

/** Runs git in this folder and gives what it wrote. @throws CommandError without git or repository, or when git refuses */
export function runGit(args: readonly string[]): Promise<string> {
  return new Promise((done, failed) => {
    // Without optional locks a check never gets in the way of a commit that is being made.
    const options = { maxBuffer: MOST_BYTES, env: { ...process.env, GIT_OPTIONAL_LOCKS: '0', LC_ALL: 'C' } };
    execFile('git', [...args], options, (failure, out, err) => {
      if (failure) failed(new CommandError(explain(failure, err)));
      else done(out);
    });
  });
}

function explain(failure: Error & { code?: unknown }, err: string): string {
  if (failure.code === 'ENOENT')
    return say`git was not found; revisions are read with it, so install it or give files.`;
  if (/not a git repository/i.test(err))
    return say`this folder is not in a git repository, so there are no revisions to compare with.`;
  return say`git says: ${err.trim().split('\n')[0] ?? failure.message}`;
}

/** The commit that a revision means. @throws CommandError when there is none */
export async function commitOf(revision: string): Promise<string> {
  await runGit(['rev-parse', '--git-dir']);
  try {
    return (
      await runGit(['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`])
    ).trim();
  } catch {
    throw new CommandError(
      say`there is no revision ${revision} in this repository; take a branch, a tag or a commit, e.g. main or HEAD~1.`,
    );
  }
}

/** The folder at the top of the repository, spelled as this folder is. */
export async function topFolder(): Promise<string> {
  return resolve((await runGit(['rev-parse', '--show-cdup'])).replace(/\n$/, '') || '.');
}

/** Definitions in this folder and below that git knows or would add, sorted. */
export async function listDefinitions(): Promise<string[]> {
  const patterns = ['machine', 'part'].flatMap((kind) => [`*.${kind}.yaml`, `*.${kind}.yml`]);
  const out = await runGit([
    'ls-files',
    '-z',
    '--cached',
    '--others',
    '--exclude-standard',
    '--',
    ...patterns,
  ]);
  return [...new Set(splitNames(out))].sort();
}

/** Whole paths of the files that differ from a commit, those included that git does not know yet. */
export async function listChanged(commit: string): Promise<string[]> {
  const top = await topFolder();
  const changed = await runGit(['diff', '--name-only', '-z', '--no-renames', commit, '--']);
  const added = await runGit(['ls-files', '-z', '--others', '--exclude-standard', '--full-name', ':/']);
  return [...splitNames(changed), ...splitNames(added)].map((name) => resolve(top, name));
}

/** Some lines of a file, both ends included, counted from 1. */
export interface LineRange {
  readonly first: number;
  readonly last: number;
}

/** The lines of a file that were added or changed since a commit. */
export async function changedLines(commit: string, file: string): Promise<LineRange[]> {
  const flags = ['--unified=0', '--no-color', '--no-ext-diff', '--no-textconv', '--no-renames'];
  const out = await runGit(['diff', ...flags, commit, '--', file]);
  return [...out.matchAll(/^@@ -\d+(?:,\d+)? \+(\d+)(?:,(\d+))? @@/gm)].flatMap(
    ([, first = '', count = '1']) =>
      count === '0' ? [] : [{ first: Number(first), last: Number(first) + Number(count) - 1 }],
  );
}

function splitNames(out: string): string[] {
  return out.split('\0').filter((name) => name !== '');
}

/** The text of a file in a commit, by its path from the top of the repository; undefined when it is not there. */
export async function readBlob(commit: string, path: string): Promise<string | undefined> {
  try {
    return await runGit(['cat-file', 'blob', `${commit}:${path}`]);
  } catch {
    return undefined; // the commit is there, so it is the file that is not, or it is a folder
  }
}
