import type { FileId } from '../../core/world.ts';
import type { Loaded } from '../load.ts';

/** Which files are reported, as plain data that threads can hand over. */
export interface ScopeData {
  /** Files that were changed; absent means that everything is reported. */
  readonly changed?: readonly FileId[];
}

/** Which files are reported. */
export interface Scope {
  readonly holds: (loaded: Loaded) => boolean;
}

/** A file has to do with a change when it was changed itself, or a sheet that it names was. */
export function createScope({ changed }: ScopeData): Scope {
  if (!changed) return { holds: () => true };
  const files = new Set(changed);
  return {
    holds: ({ analysis }) => {
      if (files.has(analysis.file)) return true;
      if (analysis.kind !== 'machine') return false;
      return [...analysis.machine.parts.values()].some(
        ({ sheetFile }) => sheetFile !== undefined && files.has(sheetFile),
      );
    },
  };
}
