import type { Analysis } from '../analysis.ts';
import { findAll } from '../findings/find.ts';
import { rangeOf } from '../syntax/tree.ts';

/** Each round keys one value or more into every part; no part has more settings that follow from a machine. */
const MOST_ROUNDS = 60;

/**
 * Keys the settings in that follow from a machine that has just been begun, until nothing is wrong any more that has a
 * cure: steps, feeds, delays. Gives the finished text.
 */
export function keyInSettings(text: string, analyse: (text: string) => Analysis): string {
  let now = text;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const analysis = analyse(now);
    const [fix] = findAll(analysis).flatMap(({ severity, code, fixes }) =>
      severity !== 'hint' && /^(?:setting|timing|spindle|motion)\//.test(code)
        ? (fixes?.slice(0, 1) ?? [])
        : [],
    );
    if (!fix) return now;
    now = applyAll(analysis, now);
  }
  return now;
}

/** The first cure of every finding, but for those that touch one that is taken already. */
function applyAll(analysis: Analysis, text: string): string {
  const edits: { from: number; to: number; text: string }[] = [];
  for (const { severity, code, fixes } of findAll(analysis)) {
    const [fix] =
      severity === 'hint' || !/^(?:setting|timing|spindle|motion)\//.test(code) ? [] : (fixes ?? []);
    const placed = (fix?.edits ?? []).flatMap((edit) => {
      const range = rangeOf(analysis.tree, edit.at);
      return range ? [{ ...range, text: edit.text }] : [];
    });
    const isFree = placed.every(({ from, to }) => edits.every((other) => to < other.from || other.to < from));
    if (isFree) edits.push(...placed);
  }
  return edits
    .sort((a, b) => b.from - a.from)
    .reduce((now, { from, to, text: put }) => now.slice(0, from) + put + now.slice(to), text);
}
