import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { pairOf } from '../../../syntax/node.ts';
import { removeEntry } from '../../common/edits.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

const empty = fromProblems('shape/empty-section');

export const rule: Rule = {
  code: 'shape/empty-section',
  severity: 'hint',
  title: later`A section has nothing in it`,
  find: (analysis) => findEmpty(analysis),
  say: (data) => say`${word(data, 'key')} is empty. Write ${word(data, 'expected')}, or remove the line.`,
};

function* findEmpty(analysis: Analysis): Iterable<Found> {
  for (const found of empty(analysis)) {
    const pair = pairOf(analysis.tree.root, word(found.data, 'key'));
    const edit = pair && removeEntry(analysis.tree, pair);
    yield edit
      ? { ...found, fixes: [{ title: say`Remove ${word(found.data, 'key')}`, edits: [edit], safe: false }] }
      : found;
  }
}
