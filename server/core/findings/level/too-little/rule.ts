import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Data } from '../../../problem.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { groupByFeed } from '../../common/shared-feed.ts';
import { signalTerminal } from '../../common/sights.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { adviseOnPair, pairData } from '../line-pair.ts';
import { adviseOnDrop, dropData } from '../sensor-drop.ts';

export const rule: Rule = {
  code: 'level/too-little',
  severity: 'error',
  title: later`An input gets too little to turn on`,
  find: findTooLittle,
  say: (data) =>
    say`${nameInput(data)} gets too little to turn on${data.others === undefined ? '' : say`, and so ${wordList(data, 'others').length > 1 ? 'do' : 'does'} ${joinWords(wordList(data, 'others'), 'and')}`}: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')}. ${adviseOnPair(data, adviseOnDrop(data, advise(data)))}`,
};

/** An input that is pulled up waits for its voltage to come down, so what is left there is too much and not too little. */
function advise(data: Data): string {
  return data.isPulledUp === true
    ? say`It is on while its voltage is low, so a higher one would not help: lead what acts on it straight to the minus of its supply, or use an input that turns on at more.`
    : say`Use a higher voltage for its signal, an input for this voltage, or a smaller resistor in its wire.`;
}

function* findTooLittle(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const [diagnosis, ...more] of groupByFeed(analysis, diagnosed(analysis, 'too-little'))) {
    const others = more.map(({ input }) => input);
    yield findingFor(analysis, diagnosis, {
      others,
      data: {
        ...(others.length > 0 && { others: others.map(signalTerminal) }),
        ...pairData(diagnosis),
        ...dropData(diagnosis),
      },
    });
  }
}
