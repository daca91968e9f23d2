import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { isKnown, rolesOf } from '../conductor-roles.ts';
import { colourAt } from '../wire-colour.ts';
import { capital, showLink } from '../wires.ts';

export const rule: Rule = {
  code: 'wire/green-yellow',
  severity: 'error',
  title: later`Green-yellow is used for something other than protective earth`,
  find: findMisused,
  say: (data) =>
    say`${capital(word(data, 'wire'))} is green-yellow, and it leads from ${word(data, 'from')} to ${word(data, 'to')}, neither of which is protective earth. Whoever sees green-yellow takes it for earth and may touch it or join it to a housing. Give this wire another colour.`,
};

/** Any convention keeps green-yellow for protective earth (IEC 60445, NFPA 79), in cables as well. */
function* findMisused(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const { onEarth } = rolesOf(analysis);
  for (const link of analysis.machine.links) {
    const found = colourAt(link);
    if (found?.colour.code !== 'GNYE' || !isKnown(analysis, link) || onEarth(link)) continue;
    yield {
      at: found.at,
      data: {
        wire: showLink(link),
        from: `${link.from.part}.${link.from.terminal}`,
        to: `${link.to.part}.${link.to.terminal}`,
      },
    };
  }
}
