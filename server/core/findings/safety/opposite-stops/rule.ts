import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { nameInput } from '../../common/input-finding.ts';
import { actorPlace, placeOf, sightData, signalTerminal } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { stopInputs } from '../stop-contacts.ts';

export const rule: Rule = {
  code: 'safety/opposite-stops',
  severity: 'hint',
  title: later`Two emergency stop inputs rest at opposite levels`,
  find: findOpposite,
  say: (data) =>
    say`${nameInput(data)} rests at ${word(data, 'rest')}, while ${word(data, 'other')} rests at ${word(data, 'otherRest')}. Whoever looks for a fault or adds a second button expects both alike. Wire both to inputs of one kind, with contacts that open when they are operated.`,
};

/** Inputs that see a voltage are told apart by whether it is high or low; what acts is the business of other findings. */
function* findOpposite(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const inputs = stopInputs(analysis).filter(({ operations }) => operations.length > 0);
  const seen = inputs.flatMap((input) =>
    input.rest.value === undefined ? [] : [{ input, volts: input.rest.value }],
  );
  const [first, ...others] = seen;
  if (!first) return;
  const middle = Math.max(...seen.map(({ volts }) => volts)) / 2;
  for (const { input, volts } of others) {
    if (volts > middle === first.volts > middle) continue;
    const [own, other] = [sightData(input), sightData(first.input)];
    yield {
      at: placeOf(analysis, input),
      data: { ...own, other: signalTerminal(first.input), otherRest: word(other, 'rest') },
      related: [
        {
          at: placeOf(analysis, first.input),
          note: say`${signalTerminal(first.input)} rests at ${word(other, 'rest')}`,
        },
        ...actorPlace(analysis, input.operations[0]?.actor.part),
      ],
    };
  }
}
