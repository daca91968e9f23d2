import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { withCures } from '../../common/cure.ts';
import { nameInput, sayLevels } from '../../common/input-finding.ts';
import { contactSetting, together, turnActor, turnSense } from '../../common/sense-fixes.ts';
import { sightData, thresholdPlace } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { stopsClosingWhenPressed } from '../stop-contacts.ts';

export const rule: Rule = {
  code: 'safety/stop-normally-open',
  severity: 'warning',
  title: later`An emergency stop contact closes when it is pressed`,
  find: findOpen,
  say: (data) =>
    say`${word(data, 'contact')} of ${word(data, 'actor')} is open at rest and closes when it is pressed: a broken wire, a loose screw or a dirty contact leaves the stop dead, and nobody notices (${nameInput(data)} sees ${sayLevels(data)}). Use a contact that is closed at rest, forced open by the button itself, and change the sense of the input with it. What is enough is decided by local codes and a licensed person.`,
};

function* findOpen(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { part, circuit, input, operation } of stopsClosingWhenPressed(analysis)) {
    const setting = contactSetting(analysis, { part, circuit });
    const found = {
      at: setting?.origin === 'set' ? setting.scalar : part.key,
      data: { ...sightData(input), contact: circuit.name, actor: part.name },
      related: [thresholdPlace(analysis, input, 'on')],
    };
    yield withCures(
      analysis,
      found,
      () =>
        turnActor(analysis, input, operation.actor).map((turn) => together(turn, turnSense(analysis, input))),
      (after) => !stopsClosingWhenPressed(after).some((stop) => stop.part.name === part.name),
    );
  }
}
