import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Fix } from '../../../problem.ts';
import { startOfLine } from '../../../syntax/lines.ts';
import { rangeOf } from '../../../syntax/tree.ts';
import { nextLine, replaceRange } from '../../common/edits.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

const conflicts = fromProblems('yaml/conflict-markers');

export const rule: Rule = {
  code: 'yaml/conflict-markers',
  severity: 'error',
  title: later`A merge conflict has not been resolved`,
  find: (analysis) => findConflicts(analysis),
  say: () =>
    say`A merge left both versions of these lines here. Numbers are those of the first one; what would be wrong with the second one is said, too. Keep one of the two and remove the marker lines.`,
};

function* findConflicts(analysis: Analysis): Iterable<Found> {
  for (const found of conflicts(analysis)) yield { ...found, fixes: resolutions(analysis, found) };
}

/** The two ways out: keep what stands before `=======`, or what stands after it. */
function resolutions({ tree }: Analysis, { at }: Found): Fix[] {
  const opens = rangeOf(tree, at)?.from;
  if (opens === undefined) return [];
  const firstFrom = nextLine(tree.text, opens);
  const base = findMarker(tree.text, firstFrom, '|||||||');
  const middle = findMarker(tree.text, firstFrom, '=======');
  const closes = middle === undefined ? undefined : findMarker(tree.text, middle, '>>>>>>>');
  if (middle === undefined || closes === undefined) return [];
  const end = nextLine(tree.text, closes);
  const firstTo = base !== undefined && base < middle ? base : middle;
  const keep = (title: string, from: number, to: number): Fix => {
    const edits = [
      replaceRange(tree, startOfLine(tree.text, opens), from, ''),
      replaceRange(tree, to, end, ''),
    ];
    return { title, edits: edits.filter((edit) => edit !== undefined), safe: false };
  };
  return [
    keep(say`Keep the first version`, firstFrom, firstTo),
    keep(say`Keep the second version`, nextLine(tree.text, middle), closes),
  ];
}

function findMarker(text: string, from: number, marker: string): number | undefined {
  const found = text.indexOf(`\n${marker}`, from - 1);
  return found < 0 ? undefined : found + 1;
}
