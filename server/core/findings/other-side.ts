import { type Analysis, analyse } from '../analysis.ts';
import { say } from '../language/say.ts';
import { createTrees } from '../model/trees.ts';
import type { Edit, Related } from '../problem.ts';
import type { Span } from '../syntax/node.ts';
import { keepTheirSide } from '../syntax/prepare.ts';
import { rangeOf, spanAt } from '../syntax/tree.ts';
import type { Finding } from './rule.ts';

/**
 * What else would be found if the second versions of all merge conflicts were taken. Both texts are as long as the one
 * with the markers, so that places mean the same in all three. Nothing for a text without conflicts.
 */
export function findOnOtherSide(
  analysis: Analysis,
  ours: readonly Finding[],
  find: (analysis: Analysis) => readonly Finding[],
): Finding[] {
  if (!analysis.problems.some(({ code }) => code === 'yaml/conflict-markers')) return [];
  const text = keepTheirSide(analysis.tree.text);
  const other = analyse(analysis.file, text, analysis.world, createTrees(false));
  const known = new Set(ours.map(says));
  return find(other)
    .filter((finding) => !known.has(says(finding)))
    .flatMap((finding) => takeOver(finding, analysis, other));
}

function says({ code, message }: Finding): string {
  return `${code} ${message}`;
}

function takeOver(finding: Finding, analysis: Analysis, other: Analysis): Finding[] {
  const move = (at: Span): Span | undefined => {
    const range = rangeOf(other.tree, at);
    return range && spanAt(analysis.tree, range.from, range.to);
  };
  const at = move(finding.at);
  if (!at) return [];
  const moved: Finding = {
    ...finding,
    at,
    message: say`With the second version of the conflict: ${finding.message}`,
    related: (finding.related ?? []).flatMap((related): Related[] => {
      if (related.file !== undefined && related.file !== analysis.file) return [related];
      const place = move(related.at);
      return place ? [{ ...related, at: place }] : [];
    }),
    get fixes() {
      return (finding.fixes ?? []).flatMap((fix) => {
        const edits = fix.edits.flatMap((edit): Edit[] => {
          const place = move(edit.at);
          return place ? [{ ...edit, at: place }] : [];
        });
        return edits.length === fix.edits.length ? [{ ...fix, edits, safe: false }] : [];
      });
    },
  };
  return [moved];
}
