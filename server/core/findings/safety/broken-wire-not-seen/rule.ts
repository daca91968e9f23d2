import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { type Unnoticed, unnoticedBreaks } from '../../common/broken-wires.ts';
import { withCures } from '../../common/cure.ts';
import { nameInput, sayLevels } from '../../common/input-finding.ts';
import { together, turnActor, turnSense } from '../../common/sense-fixes.ts';
import { actorPlace, placeOf, readsOf, showSight, sightData, thresholdPlace } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { stopsClosingWhenPressed } from '../stop-contacts.ts';

export const rule: Rule = {
  code: 'safety/broken-wire-not-seen',
  severity: 'warning',
  title: later`Nobody notices when the wire of a limit, home or emergency stop breaks`,
  find: findUnnoticed,
  say: (data) =>
    say`When ${word(data, 'wire')} breaks, ${nameInput(data)} stays at ${word(data, 'broken')} whatever ${word(data, 'actor')} does (${sayLevels(data)}), and the machine takes that for not operated: the switch is dead, and it shows when it is needed. Use a contact that is closed at rest and opens when it is operated, and change the sense of the input with it: then a broken wire reads as operated.`,
};

function* findUnnoticed(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const stops = stopsClosingWhenPressed(analysis);
  for (const unnoticed of unnoticedBreaks(analysis)) {
    const { input, row, link } = unnoticed;
    const actor = input.operations[0]?.actor;
    // That an emergency stop closes when it is pressed is the mistake; this follows from it.
    if (stops.some((stop) => stop.input === input)) continue;
    const found = {
      at: placeOf(analysis, input),
      data: {
        ...sightData(input),
        wire: `${link.from.part}.${link.from.terminal} -> ${link.to.part}.${link.to.terminal}`,
        broken: showSight(row.rest, readsOf(input)),
      },
      related: [...actorPlace(analysis, actor?.part), thresholdPlace(analysis, input, 'on')],
    };
    yield withCures(
      analysis,
      found,
      () => turnActor(analysis, input, actor).map((turn) => together(turn, turnSense(analysis, input))),
      (after) => !unnoticedBreaks(after).some((each) => isSame(each, unnoticed)),
    );
  }
}

function isSame({ input: { at: a } }: Unnoticed, { input: { at: b } }: Unnoticed): boolean {
  return a.part.name === b.part.name && a.circuit.name === b.circuit.name;
}
