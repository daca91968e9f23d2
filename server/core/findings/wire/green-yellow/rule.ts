import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { factOver } from '../../../reuse/fact-over.ts';
import { isAnyBlockBroken } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { isKnown, isOnEarth } from '../conductor-roles.ts';
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

function findMisused(analysis: Analysis): Found[] {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return [];
  return foundAt(analysis).flatMap((found) => found ?? []);
}

/** Any convention keeps green-yellow for protective earth (IEC 60445, NFPA 79), in cables as well. */
const foundAt = factOver(
  'analysis',
  ({ machine }: MachineAnalysis) => machine.links,
  (analysis, link): Found | undefined => {
    const found = colourAt(link);
    if (found?.colour.code !== 'GNYE' || !isKnown(analysis, link) || isOnEarth(analysis, link))
      return undefined;
    return {
      at: found.at,
      data: {
        wire: showLink(link),
        from: link.from.id,
        to: link.to.id,
      },
    };
  },
);
