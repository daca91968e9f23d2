import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { overloadsOf } from '../overload.ts';

export const rule: Rule = {
  code: 'level/contact-overloaded',
  severity: 'error',
  title: later`A contact has to switch more than it can`,
  find: findOverloaded,
  say: (data) =>
    say`${word(data, 'terminal')} has to ${data.quantity === 'voltage' ? 'hold off' : 'carry'} ${word(data, 'value')} and is made for ${word(data, 'most')}: the contact burns or welds. Use a contact that is made for it, or let it switch a relay.`,
};

function* findOverloaded(analysis: Analysis): Iterable<Found> {
  if (analysis.kind === 'machine') yield* overloadsOf(analysis, true);
}
