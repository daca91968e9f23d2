import type { Analysis } from '../../../analysis.ts';

import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { needlessLinks } from '../doubled-links.ts';
import { removeLink } from '../remove-link.ts';

export const rule: Rule = {
  code: 'wiring/link-twice',
  severity: 'warning',
  title: later`A link is given twice`,
  find: findDoubled,
  say: (data) =>
    say`${word(data, 'from')} and ${word(data, 'to')} are joined already by an earlier link. Two wires side by side would both be cut, labelled and counted at their terminals; most often one of them was meant for another terminal. Remove this one, or write where it goes.`,
};

function* findDoubled(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { link, first } of needlessLinks(analysis).doubled) {
    yield {
      at: link.to.at,
      data: {
        from: link.from.id,
        to: link.to.id,
      },
      related: [{ at: first.at, note: say`the earlier link` }],
      get fixes() {
        const fix = removeLink(analysis, link);
        return fix ? [fix] : [];
      },
    };
  }
}
