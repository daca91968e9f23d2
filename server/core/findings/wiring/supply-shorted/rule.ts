import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { formatBest } from '../../../units/index.ts';
import { endsAt } from '../../common/link-ends.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { foundConflict } from '../conflict-finding.ts';
import { railConflicts, switchedShorts } from '../rail-conflicts.ts';

export const rule: Rule = {
  code: 'wiring/supply-shorted',
  severity: 'error',
  title: later`The plus and minus of a supply are joined`,
  find: findShorted,
  say: (data) =>
    data.part !== undefined
      ? say`${word(data, 'part')} shorts its supply ${data.isOperated === true ? 'when it is operated' : 'as long as it is not operated'}: ${joinWords(wordList(data, 'terminals'), 'and')} are on the two sides of it with nothing between that limits the current. A fuse blows at best, and the contact welds or a wire burns at worst. Put what it should switch into its wire.`
      : say`The ${word(data, 'volts')} of ${word(data, 'supply')} are shorted: its plus and minus are joined by way of ${word(data, 'path')}. The current is limited by nothing but the wires: a fuse blows at best, and a wire burns at worst. Find the link on that way which should not be there.`,
};

function* findShorted(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const conflict of railConflicts(analysis)) {
    if (conflict.kind !== 'shorted') continue;
    const data = { supply: conflict.supply.part.name, volts: formatBest(conflict.volts, 'voltage', 3) };
    yield foundConflict(analysis, conflict, data);
  }
  for (const short of switchedShorts(analysis)) {
    const [end] = short.terminals.flatMap((terminal) => endsAt(analysis, terminal));
    if (end) yield { at: end.at, data: { ...short } };
  }
}
