import type { Analysis } from '../../../analysis.ts';
import { groupBy } from '../../../group.ts';
import { later, say } from '../../../language/say.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { endAt, fittingSupplies, moveToSupply } from '../other-supply.ts';

export const rule: Rule = {
  code: 'power/sensitive-on-motor-supply',
  severity: 'hint',
  title: later`Electronics share a supply with motors`,
  find: findSensitive,
  say: (data) => {
    const better = wordList(data, 'better');
    return say`${word(data, 'part')} hangs on ${word(data, 'supply')}, which also feeds ${joinWords(wordList(data, 'drives'), 'and')}. The chopped motor current and what braking gives back disturb it, and it goes off with the motors. ${better.length === 0 ? 'Give it a supply of its own' : say`Feed it from ${joinWords(better)}`}.`;
  },
};

/** Classes whose parts decide, measure or count. */
const SENSITIVE: ReadonlySet<string> = new Set(['controller', 'sensor', 'handwheel', 'probe']);

function* findSensitive(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const [supply, feeds] of groupBy(analysis.feeds, (feed) => feed.supply.part)) {
    if (supply.sheet?.partClass !== 'supply') continue;
    const drives = feeds.filter(({ load }) => load.part.sheet?.partClass === 'drive');
    if (drives.length === 0) continue;
    for (const feed of feeds) {
      if (!SENSITIVE.has(feed.load.part.sheet?.partClass ?? '') || !feed.link) continue;
      const other = fittingSupplies(analysis, feed).filter(({ part }) =>
        analysis.feeds.every(
          ({ supply: s, load }) => s.part !== part || load.part.sheet?.partClass !== 'drive',
        ),
      );
      const end = endAt(feed.link, feed.load, 0);
      yield {
        at: end?.at ?? feed.link.at,
        data: {
          part: feed.load.part.name,
          supply: supply.name,
          drives: drives.map(({ load }) => load.part.name),
          better: other.map(({ part }) => part.name),
        },
        related: [{ at: supply.key, note: say`${supply.name}, the motor supply` }],
        fixes: moveToSupply(analysis, feed, feed.link, other),
      };
    }
  }
}
