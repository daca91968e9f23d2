import { createLines } from '../../server/command/lines.ts';
import { createFettle, type Fettle } from '../../server/core/fettle.ts';
import type { Severity } from '../../server/core/findings/rule.ts';
import { rangeOf } from '../../server/core/syntax/tree.ts';
import type { Example } from '../support/examples.ts';
import { worldOf } from '../support/world.ts';
import { type Line, makeMistake } from './make.ts';
import type { Mistake } from './mistake.ts';

/** A finding as the command line prints it, without its columns. */
export interface Said extends Line {
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
}

/** Said of every machine with motors, in one form or another, so that it is neither new nor caught. */
export const STANDING_CAUTION = 'safety/emergency-stop-caution';

/** How one mistake fared. */
export interface Verdict {
  readonly mistake: Mistake;
  /** Whether the expected finding is there at all, and whether it stands in the line where one must look. */
  readonly isCaught: boolean;
  readonly isPlaced: boolean;
  /** Where it stands. */
  readonly at: Line | undefined;
  /** What else is said that was not said before. */
  readonly extra: readonly Said[];
  /** The extras for which no reason is on record, and the reasons on record for which there is no extra. */
  readonly unexplained: readonly Said[];
  readonly unneeded: readonly string[];
}

/** Checks an example with the operations that `fettle check` prints: every file of it, over one product that keeps what it has read. */
export function createJudge(example: Example): {
  readonly clean: readonly Said[];
  readonly judge: (mistake: Mistake) => Verdict;
} {
  const files = new Map(example.files);
  const fettle = createFettle(worldOf(files));
  const clean = checkAll(fettle, files);
  const known = new Set(clean.map((finding) => nameOf(finding, finding)));
  return {
    clean,
    judge: (mistake) => {
      const mistaken = makeMistake(example, mistake);
      for (const [file, text] of mistaken.files) files.set(file, text);
      const fresh = checkAll(fettle, files).filter(
        (finding) =>
          finding.code !== STANDING_CAUTION && !known.has(nameOf(finding, mistaken.before(finding))),
      );
      return weigh(mistake, mistaken.look, fresh);
    },
  };
}

function weigh(mistake: Mistake, look: Line, fresh: readonly Said[]): Verdict {
  const right = fresh.filter(({ code }) => code === mistake.finding);
  const placed = right.find(({ file, line }) => file === look.file && line === look.line);
  const meant = placed ?? right[0];
  const extra = fresh.filter((finding) => finding !== meant);
  return {
    mistake,
    isCaught: meant !== undefined,
    isPlaced: placed !== undefined,
    at: meant && { file: meant.file, line: meant.line },
    extra,
    unexplained: extra.filter(({ code }) => !mistake.also.has(code)),
    unneeded: [...mistake.also.keys()].filter((code) => !extra.some((finding) => finding.code === code)),
  };
}

function checkAll(fettle: Fettle, files: ReadonlyMap<string, string>): Said[] {
  return [...files].flatMap(([file, text]) => {
    const analysis = fettle.analyse(file, text);
    const lines = createLines(text);
    return fettle.findings(analysis).map(({ at, severity, code, message }) => {
      const { line } = lines.placeOf(rangeOf(analysis.tree, at) ?? { from: 0, to: 0 });
      return { file, line, severity, code, message };
    });
  });
}

const nameOf = ({ code }: Said, { file, line }: Line) => `${file}:${line} ${code}`;
