import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { stayingOn } from '../../common/broken-wires.ts';
import { withCures } from '../../common/cure.ts';
import { nameInput } from '../../common/input-finding.ts';
import { turnSense } from '../../common/sense-fixes.ts';
import { placeOf, readsOf, showSight, sightData, thresholdPlace } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'safety/stays-on-when-broken',
  severity: 'warning',
  title: later`A drive or spindle stays on when its enable or run wire breaks`,
  find: findStaying,
  say: (data) =>
    say`When ${word(data, 'wire')} breaks, ${nameInput(data)} sees ${word(data, 'broken')}, which is what turns it on: ${word(data, 'part')} stays on, and the controller can no longer turn it off. Set it so that it needs ${data.actsWhenOn === true ? 'no current or no signal' : 'a current or a signal'} to be on, on both sides of the wire.`,
};

function* findStaying(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { input, row, link } of stayingOn(analysis)) {
    const { part, circuit } = input.at;
    const found = {
      at: placeOf(analysis, input),
      data: {
        ...sightData(input),
        part: part.name,
        wire: `${link.from.part}.${link.from.terminal} -> ${link.to.part}.${link.to.terminal}`,
        broken: showSight(row.rest, readsOf(input)),
        actsWhenOn: input.sense.actsWhenOn,
      },
      related: [thresholdPlace(analysis, input, 'on')],
    };
    yield withCures(
      analysis,
      found,
      () => [turnSense(analysis, input)],
      (after) =>
        !stayingOn(after).some(
          ({ input: { at } }) => at.part.name === part.name && at.circuit.name === circuit.name,
        ),
    );
  }
}
