import { nextLine, replaceRange } from '../findings/common/edits.ts';
import type { Edit } from '../problem.ts';
import { startOfLine } from '../syntax/lines.ts';
import { rangeOf, type Tree } from '../syntax/tree.ts';
import type { Directive, Word } from './directives.ts';

/** Takes one code out of a directive; the whole comment where it is the only one. */
export function removeWord(tree: Tree, directive: Directive, word: Word): Edit | undefined {
  const index = directive.codes.indexOf(word);
  const [before, after] = [directive.codes[index - 1], directive.codes[index + 1]];
  const { block } = word.at;
  if (after) return { at: { block, from: word.at.from, to: after.at.from }, text: '' };
  if (before) return { at: { block, from: before.at.to, to: word.at.to }, text: '' };
  return removeDirective(tree, directive);
}

/** Takes a directive away: with its line where it stands alone, else with the blanks before it. */
export function removeDirective(tree: Tree, { at, alone }: Directive): Edit | undefined {
  const range = rangeOf(tree, at);
  if (!range) return undefined;
  if (alone) return replaceRange(tree, startOfLine(tree.text, range.from), nextLine(tree.text, range.to), '');
  const blanks = /[ \t]*$/.exec(tree.text.slice(0, range.from))?.[0].length ?? 0;
  return replaceRange(tree, range.from - blanks, range.to, '');
}
