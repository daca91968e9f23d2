import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import { fromProblems } from '../../from-problems.ts';
import type { Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'yaml/too-deep',
  severity: 'error',
  title: later`The text is nested too deeply`,
  find: fromProblems('yaml/too-deep'),
  say: (data) =>
    say`This is nested more than ${word(data, 'deepest')} levels deep and is not read; no definition needs more than eight. Probably brackets are opened here that are never closed.`,
};
