import type { FileId } from '../../core/world.ts';
import { CommandError } from '../command.ts';
import { readerOf } from '../diff/revision.ts';
import { changedLines, type LineRange } from '../git.ts';
import { createLoader, type Loaded } from '../load.ts';
import type { LocatedFinding } from '../located.ts';

/** Which files and findings are reported, as plain data that threads can hand over. */
export interface ScopeData {
  /** What was changed since which commit; absent means that everything is reported. */
  readonly since?: { readonly commit: string; readonly files: readonly FileId[] };
}

/** Which files and findings are reported. */
export interface Scope {
  /** False leaves a file out. */
  readonly holds: (loaded: Loaded) => boolean;
  /** The findings that have to do with the change. */
  readonly keep: <F extends LocatedFinding>(loaded: Loaded, findings: readonly F[]) => Promise<readonly F[]>;
}

/**
 * A file has to do with a change when it was changed itself, or a sheet that it names was. Of its findings those are
 * kept that are new since the commit, or stand on a line that was changed.
 */
export async function createScope({ since }: ScopeData): Promise<Scope> {
  if (!since) return { holds: () => true, keep: async (_, findings) => findings };
  const files = new Set(since.files);
  const load = createLoader(await readerOf(since.commit));
  return {
    holds: ({ analysis }) => {
      if (files.has(analysis.file)) return true;
      if (analysis.kind !== 'machine') return false;
      return [...analysis.machine.parts.values()].some(
        ({ sheetFile }) => sheetFile !== undefined && files.has(sheetFile),
      );
    },
    keep: async (loaded, findings) => {
      const before = findings.length > 0 ? await sayingsBefore(load, loaded.path) : undefined;
      if (!before) return findings; // the file is new
      const lines = files.has(loaded.analysis.file) ? await changedLines(since.commit, loaded.path) : [];
      return findings.filter((finding) => !before.has(says(finding)) || isOn(finding, lines));
    },
  };
}

/** What was found in a file as it stood in the commit; undefined when it was not there or could not be read. */
async function sayingsBefore(
  load: ReturnType<typeof createLoader>,
  path: string,
): Promise<ReadonlySet<string> | undefined> {
  try {
    const then = await load(path);
    const { fettle, analysis } = then;
    const found = [...fettle.findings(analysis), ...fettle.silenced(analysis).map(({ finding }) => finding)];
    load.forget(then);
    return new Set(found.map(says));
  } catch (failure) {
    if (failure instanceof CommandError) return undefined;
    throw failure;
  }
}

function says({ code, message }: { readonly code: string; readonly message: string }): string {
  return `${code} ${message}`;
}

function isOn({ line, endLine }: LocatedFinding, ranges: readonly LineRange[]): boolean {
  return ranges.some(({ first, last }) => line <= last && endLine >= first);
}
