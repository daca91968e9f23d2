import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { spanAt } from '../../../syntax/tree.ts';
import { lineEnd } from '../../common/edits.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

const missing = fromProblems('shape/missing-key');

export const rule: Rule = {
  code: 'shape/missing-key',
  severity: 'error',
  title: later`A key that is needed is missing`,
  find: (analysis) => [...missing(analysis), ...findEmptyFile(analysis)],
  say: (data) => {
    const keys = joinWords(wordList(data, 'missing'), 'and');
    if (data.empty === true) return say`This file says nothing yet. Begin with ${keys}.`;
    const owner = word(data, 'owner');
    return say`${owner === '' ? 'This file' : owner} needs ${keys}, without which it cannot be understood. Add ${wordList(data, 'missing').length > 1 ? 'them' : 'it'}.`;
  },
};

/** A file without anything in it has no place for its missing keys but its first character. */
function findEmptyFile({ kind, tree }: Analysis): Found[] {
  if (tree.root || tree.problems.length > 0 || kind === 'project') return [];
  const at = spanAt(tree, 0, 0);
  const end = spanAt(tree, tree.text.length, tree.text.length);
  if (!at || !end) return [];
  const keys = kind === 'part' ? ['part', 'class'] : ['machine'];
  const ending = lineEnd(tree);
  const start = tree.text.trim() !== '' && !tree.text.endsWith('\n') ? ending : '';
  const lines = kind === 'part' ? ['part: New part', 'class: load'] : ['machine: New machine'];
  const text = start + lines.map((line) => line + ending).join('');
  const fixes = [{ title: say`Add ${keys.join(say` and `)}`, edits: [{ at: end, text }], safe: false }];
  return [{ at, data: { owner: '', missing: keys, empty: true }, fixes }];
}
