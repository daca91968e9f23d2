import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { nearestName } from '../../../nearest.ts';
import type { Data } from '../../../problem.ts';
import { suggest, word, wordList } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

const unresolved = fromProblems('yaml/alias-unresolved');

export const rule: Rule = {
  code: 'yaml/alias-unresolved',
  severity: 'error',
  title: later`An alias has no anchor before it`,
  find: (analysis) => findUnresolved(analysis),
  say: (data) => {
    const name = word(data, 'name');
    if (data.cyclic === true)
      return say`*${name} stands inside what &${name} marks, so it would hold itself. Write out what is meant here.`;
    const known = wordList(data, 'known').map((each) => `&${each}`);
    return say`*${name} has no anchor &${name} before it, so nothing stands here. ${suggest(word(data, 'nearest'), known, say`these anchors`) || 'Put quotes round the text if no alias is meant.'}`;
  },
};

function* findUnresolved(analysis: Analysis): Iterable<Found> {
  for (const found of unresolved(analysis)) {
    const nearest = nearestOf(found.data);
    if (nearest === undefined) yield found;
    else {
      const fix = {
        title: say`Change to *${nearest}`,
        edits: [{ at: found.at, text: `*${nearest}` }],
        safe: false,
      };
      yield { ...found, data: { ...found.data, nearest: `*${nearest}` }, fixes: [fix] };
    }
  }
}

function nearestOf(data: Data): string | undefined {
  return data.cyclic === true ? undefined : nearestName(word(data, 'name'), wordList(data, 'known'));
}
