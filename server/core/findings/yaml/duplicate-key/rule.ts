import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Found, Rule } from '../../rule.ts';

const repeated = fromProblems('yaml/duplicate-key');

export const rule: Rule = {
  code: 'yaml/duplicate-key',
  severity: 'error',
  title: later`A key stands twice in one group`,
  find: (analysis) => findRepeated(analysis),
  say: (data) =>
    say`${word(data, 'key')} stands twice here; the first one counts and this one is not read. Remove one of them, or give one another name.`,
};

function* findRepeated(analysis: Analysis): Iterable<Found> {
  for (const found of repeated(analysis)) {
    const related = (found.related ?? []).map((each) => ({
      ...each,
      note: say`the first one, which counts`,
    }));
    yield { ...found, related };
  }
}
