import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { overloadsOf } from '../overload.ts';

export const rule: Rule = {
  code: 'level/output-overloaded',
  severity: 'error',
  title: later`An output has to carry more current than it can`,
  find: findOverloaded,
  say: (data) =>
    say`${word(data, 'terminal')} has to carry ${word(data, 'value')} and can carry ${word(data, 'most')}: its transistor overheats. Let it switch a relay that carries the load, or use a load that draws less.`,
};

function* findOverloaded(analysis: Analysis): Iterable<Found> {
  if (analysis.kind === 'machine') yield* overloadsOf(analysis, false);
}
