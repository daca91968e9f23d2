import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { turnActor, turnSense } from '../../common/sense-fixes.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'polarity/inverted',
  severity: 'error',
  title: later`An input acts at rest, and no longer when it is operated`,
  find: findInverted,
  say: (data) =>
    data.isAlarm === true
      ? say`${nameInput(data)} acts while ${word(data, 'actor')} reports no fault, and no longer when it does: ${word(data, 'rest')} while all is well, ${word(data, 'operated')} with a fault, and it is set to act while it is ${data.actsWhenOn === true ? 'on' : 'off'} (on at ${word(data, 'turnsOn')}). The controller would stop without a reason, and not with one. Turn the sense of the input round; if the alarm output of ${word(data, 'actor')} conducts while all is well, write it in its sheet as a contact that is closed at rest.`
      : say`${nameInput(data)} acts while nobody operates ${word(data, 'actor')}, and no longer when somebody does: ${sayLevels(data)}, and it is set to act while it is ${data.actsWhenOn === true ? 'on' : 'off'} (on at ${word(data, 'turnsOn')}). Change the contact of ${word(data, 'actor')}, or the sense of the input.${data.isGuard === true ? ' With a contact that is closed at rest a broken wire reads as operated and is noticed.' : ''}`,
};

const GUARDS: ReadonlySet<string> = new Set(['limit', 'home', 'emergency-stop']);

function* findInverted(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'inverted')) {
    const { input, actor } = diagnosis;
    yield findingFor(analysis, diagnosis, {
      data: {
        actsWhenOn: input.sense.actsWhenOn,
        isAlarm: actor?.mover === 'output',
        isGuard: GUARDS.has(input.at.circuit.does?.word ?? ''),
      },
      propose: () => [...turnActor(analysis, input, actor), turnSense(analysis, input)],
    });
  }
}
