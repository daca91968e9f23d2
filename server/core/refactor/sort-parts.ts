import { replaceRange } from '../findings/common/edits.ts';
import { say } from '../language/say.ts';
import type { Pair } from '../syntax/node.ts';
import type { Tree } from '../syntax/tree.ts';
import { type Lines, linesOfPair } from './lines.ts';
import type { Place, Refactoring } from './refactoring.ts';

/**
 * Parts in the order of their names. Blank lines part groups, which stay where they are with the comment above them;
 * a comment inside a group goes with the part that follows it.
 */
export function* sortParts({ analysis, steps }: Place): Generator<Refactoring> {
  const [section] = steps;
  if (steps.length > 1) return; // at the key of the section, or between its parts
  if (analysis.kind !== 'machine' || section?.kind !== 'pair' || section.pair.key.text !== 'parts') return;
  const { tree } = analysis;
  const { value } = section.pair;
  if (value?.kind !== 'map' || value.flow) return;
  const edits = groupsOf(tree, value.pairs).flatMap((group) => {
    const sorted = group.toSorted((a, b) => compare(a.name, b.name));
    const [from, to] = [group[0]?.lines.from ?? 0, group.at(-1)?.lines.to ?? 0];
    const texts = sorted.map(({ lines }) => tree.text.slice(lines.from, lines.to));
    const text = joinLines(texts, tree.text.slice(from, to));
    return text === tree.text.slice(from, to) ? [] : (replaceRange(tree, from, to, text) ?? []);
  });
  if (edits.length > 0) yield { title: say`Sort parts by name`, kind: 'refactor.rewrite', edits };
}

interface Entry {
  readonly name: string;
  readonly lines: Lines;
}

function groupsOf(tree: Tree, pairs: readonly Pair[]): Entry[][] {
  const groups: Entry[][] = [];
  let end = -1;
  for (const pair of pairs) {
    const lines = linesOfPair(tree, pair);
    if (!lines) return []; // parts that share a line have no order of lines
    const between = end < 0 ? '\n' : tree.text.slice(end, lines.from);
    const isNew = /(?:^|\n)[ \t]*\r?\n/.test(between);
    const entry = { name: pair.key.text, lines: isNew ? lines : { from: Math.max(end, 0), to: lines.to } };
    if (isNew) groups.push([entry]);
    else groups.at(-1)?.push(entry);
    end = lines.to;
  }
  return groups;
}

/** By number where names end in one: `drive-2` before `drive-10`. */
function compare(a: string, b: string): number {
  const [, wordA = a, numberA = ''] = /^(.*?)(\d*)$/.exec(a) ?? [];
  const [, wordB = b, numberB = ''] = /^(.*?)(\d*)$/.exec(b) ?? [];
  if (wordA !== wordB) return wordA < wordB ? -1 : 1;
  return Number(numberA) - Number(numberB);
}

/** The last line of a text may lack its end; wherever it goes, the others need one. */
function joinLines(texts: readonly string[], before: string): string {
  const ending = before.includes('\r\n') ? '\r\n' : '\n';
  const whole = texts.map((text) => (text.endsWith('\n') ? text : text + ending)).join('');
  return before.endsWith('\n') ? whole : whole.slice(0, -ending.length);
}
