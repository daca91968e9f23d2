import type { Analysis } from '../../../analysis.ts';

import { later, say } from '../../../language/say.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { needlessLinks } from '../doubled-links.ts';
import { removeLink } from '../remove-link.ts';

export const rule: Rule = {
  code: 'wiring/link-to-itself',
  severity: 'error',
  title: later`A link joins a terminal to itself`,
  find: findLoops,
  say: (data) =>
    say`This link joins ${word(data, 'terminal')} to itself, so it joins nothing, and what it was meant to join is open. Write the terminal that was meant, or remove the link.`,
};

function* findLoops(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const link of needlessLinks(analysis).loops) {
    yield {
      at: link.to.at,
      data: { terminal: link.to.id },
      get fixes() {
        const fix = removeLink(analysis, link);
        return fix ? [fix] : [];
      },
    };
  }
}
