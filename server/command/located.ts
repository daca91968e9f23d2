import type { Finding } from '../core/findings/rule.ts';
import type { Related } from '../core/problem.ts';
import type { Silenced } from '../core/silence/settle.ts';
import { rangeOf } from '../core/syntax/tree.ts';
import { createLines, type Place } from './lines.ts';
import type { Loaded } from './load.ts';
import { pathOfKey } from './paths.ts';

/** A finding as the command line writes it: lines and columns count from 1, columns in UTF-16 units. */
export interface LocatedFinding extends Place {
  readonly file: string;
  readonly severity: Finding['severity'];
  readonly code: string;
  readonly message: string;
  /** Other places that have to do with it. */
  readonly related?: readonly (Place & { readonly file: string; readonly note: string })[];
}

/** A finding that somebody has silenced: what of its file does so, and the reason that was given. */
export interface SilencedFinding extends LocatedFinding {
  readonly silenced: Pick<Silenced, 'by' | 'reason'>;
}

/** The findings of a file with their lines and columns. */
export function locateFindings(loaded: Loaded): LocatedFinding[] {
  return locate(loaded, loaded.fettle.findings(loaded.analysis));
}

/** The findings of a file that somebody has silenced, likewise. */
export function locateSilenced(loaded: Loaded): SilencedFinding[] {
  const all = loaded.fettle.silenced(loaded.analysis);
  const located = locate(
    loaded,
    all.map(({ finding }) => finding),
  );
  return all.flatMap(({ by, reason }, index) => {
    const at = located[index];
    return at ? [{ ...at, silenced: { by, reason } }] : [];
  });
}

function locate(loaded: Loaded, findings: readonly Finding[]): LocatedFinding[] {
  const { path, analysis } = loaded;
  if (findings.length === 0) return [];
  const lines = createLines(analysis.tree.text);
  return findings.map((finding) => {
    const related = (finding.related ?? []).flatMap((each) => locateRelated(loaded, each));
    return {
      file: path,
      ...lines.placeOf(rangeOf(analysis.tree, finding.at) ?? { from: 0, to: 0 }),
      severity: finding.severity,
      code: finding.code,
      message: finding.message,
      ...(related.length > 0 && { related }),
    };
  });
}

/** A place in the same file, or in a sheet that it uses; nothing when the sheet is not at hand. */
function locateRelated({ path, fettle, files, analysis }: Loaded, { file, at, note }: Related) {
  if (file === undefined || file === analysis.file) {
    const range = rangeOf(analysis.tree, at);
    return range ? [{ file: path, ...createLines(analysis.tree.text).placeOf(range), note }] : [];
  }
  const state = files.world.file(file);
  const range = fettle.rangeIn(file, at);
  if (state?.kind !== 'text' || !range) return [];
  return [{ file: pathOfKey(file), ...createLines(state.text).placeOf(range), note }];
}
