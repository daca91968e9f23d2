import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { readSpindle } from '../../../values/spindle-parts.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { changeSpeed } from '../change-speed.ts';

export const rule: Rule = {
  code: 'spindle/above-plate-speed',
  severity: 'error',
  title: later`A speed is wanted that is above the plate of the spindle`,
  find: findTooFast,
  say: (data) =>
    say`${word(data, 'asked')} is wanted, and the plate of ${word(data, 'motor')} ends at ${word(data, 'plate')} (${word(data, 'working')}): faster, its bearings and the tool can fail. Ask for ${word(data, 'plate')} or less.`,
};

function* findTooFast(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const spindle = readSpindle(analysis.machine);
  const plate = analysis.values.byAddress.get('spindle.synchronous-speed');
  const asked = spindle?.fields.quantity('top-speed');
  if (!spindle?.motor || !plate || !asked || asked.value.value <= plate.si * (1 + 1e-9)) return;
  if (isFaulty(analysis, asked.at) || restsOnFault(analysis, plate)) return;
  yield {
    at: asked.at,
    data: { asked: asked.text, motor: spindle.motor.name, plate: plate.shown, working: plate.working },
    fixes: changeSpeed(analysis, asked, plate.si),
  };
}
