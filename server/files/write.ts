import { constants } from 'node:fs';
import { copyFile, link, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { later, said, say } from '../core/language/say.ts';

/** What became of a file that was to be written. */
export type Written =
  | { readonly kind: 'written' }
  | { readonly kind: 'exists' }
  | { readonly kind: 'failed'; readonly why: string };

/**
 * Writes a file whole or not at all: a temporary file beside it takes its place in one step, so that whoever reads it
 * meanwhile sees the old text or the new one. A file that is there stays unless it may be overwritten. Never throws.
 */
export async function writeWhole(path: string, text: string, overwrite: boolean): Promise<Written> {
  const target = await realpath(path).catch(() => path); // a link stays a link to the new text
  const beside = join(dirname(target), `.${basename(target)}.${process.pid}.new`);
  try {
    const before = await stat(target).catch(() => undefined);
    if (before?.isDirectory()) return { kind: 'failed', why: say`it is a folder` };
    if (before && !before.isFile()) return { kind: 'failed', why: say`it is not a plain file` };
    if (before && !overwrite) return { kind: 'exists' };
    await writeFile(beside, text, { flag: 'wx', ...(before && { mode: before.mode }) });
    if (overwrite) await rename(beside, target);
    else await placeNew(beside, target);
    return { kind: 'written' };
  } catch (failure) {
    return (failure as { code?: string }).code === 'EEXIST'
      ? { kind: 'exists' }
      : { kind: 'failed', why: sayWhyUnwritten(failure) };
  } finally {
    await rm(beside, { force: true }).catch(() => undefined);
  }
}

/** Why the system has not written, in words where it is known what its code means. */
export function sayWhyUnwritten(failure: unknown): string {
  const code = String((failure as { code?: string }).code);
  return said(reasons[code] ?? code);
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: later`its folder does not exist`,
  ENOTDIR: later`what should be its folder is a file`,
  EACCES: later`writing there is not allowed`,
  EPERM: later`writing there is not allowed`,
  EROFS: later`nothing can be written there`,
  ENOSPC: later`the disk is full`,
};

/** Gives a new file its name, unless somebody else has taken it meanwhile; not every file system has links. */
async function placeNew(beside: string, target: string): Promise<void> {
  try {
    await link(beside, target);
  } catch (failure) {
    if ((failure as { code?: string }).code === 'EEXIST') throw failure;
    await copyFile(beside, target, constants.COPYFILE_EXCL);
  }
}
