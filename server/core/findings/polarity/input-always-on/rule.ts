import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { moveToOtherRail } from '../rail-fixes.ts';

export const rule: Rule = {
  code: 'polarity/input-always-on',
  severity: 'error',
  title: later`An input is always on`,
  find: findAlwaysOn,
  say: (data) => {
    const actor = word(data, 'actor');
    const advice =
      actor === ''
        ? say`Nothing that is wired to it can change that. Put what should act on it into its wire`
        : say`${actor} makes too little difference to it. Look for a wire that bridges ${actor}, or for a current that leaks past it`;
    return say`${nameInput(data)} is always on: ${sayLevels(data)}, and it needs ${word(data, 'staysOff')} to turn off. ${advice}.`;
  },
};

function* findAlwaysOn(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'always-on')) {
    yield findingFor(analysis, diagnosis, {
      threshold: 'off',
      propose: () => moveToOtherRail(analysis, diagnosis.input),
    });
  }
}
