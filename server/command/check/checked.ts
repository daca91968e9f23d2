import { say } from '../../core/language/say.ts';
import { CommandError } from '../command.ts';
import type { Loader } from '../load.ts';
import { type LocatedFinding, locateFindings, locateSilenced, type SilencedFinding } from '../located.ts';
import { type Excerpt, excerptOf } from './excerpt.ts';
import type { Scope } from './scope.ts';

/** One file after its check: its findings, or why it could not be read. Plain data, so that threads can hand it over. */
export type Checked =
  | {
      readonly kind: 'checked';
      readonly file: string;
      readonly findings: readonly ShownFinding[];
      /** What was found besides, and somebody does not want to see. */
      readonly silenced: readonly SilencedFinding[];
    }
  | { readonly kind: 'left-out'; readonly file: string }
  | { readonly kind: 'unread'; readonly file: string; readonly why: string };

/** A finding with the lines that it is about. */
export interface ShownFinding extends LocatedFinding {
  readonly excerpt: Excerpt;
}

/** Checks one file and lets go of it. A file that cannot be read is a result, too. */
export async function checkFile(load: Loader, file: string, scope: Scope, given?: string): Promise<Checked> {
  try {
    const loaded = await load(file, given);
    try {
      if (!scope.holds(loaded)) return { kind: 'left-out', file };
      const { text } = loaded.analysis.tree;
      const found = await scope.keep(loaded, locateFindings(loaded));
      const findings = found.map((each) => ({ ...each, excerpt: excerptOf(text, each) }));
      const silenced = await scope.keep(loaded, locateSilenced(loaded));
      return { kind: 'checked', file, findings, silenced };
    } finally {
      load.forget(loaded);
    }
  } catch (failure) {
    if (failure instanceof CommandError) return { kind: 'unread', file, why: failure.message };
    const why = failure instanceof Error ? (failure.stack ?? failure.message) : String(failure);
    return { kind: 'unread', file, why: say`${file} could not be checked, an internal fault: ${why}` };
  }
}
