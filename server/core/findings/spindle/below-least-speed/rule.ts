import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { readSpindle } from '../../../values/spindle-parts.ts';
import { isFaulty } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { changeSpeed } from '../change-speed.ts';

export const rule: Rule = {
  code: 'spindle/below-least-speed',
  severity: 'warning',
  title: later`A speed is asked for that is below the least of the spindle`,
  find: findTooSlow,
  say: (data) =>
    say`${word(data, 'asked')} is asked for, and ${word(data, 'motor')} must not run below ${word(data, 'least')} under load: it gets too hot and has little torque there. Ask for ${word(data, 'least')} or more.`,
};

function* findTooSlow(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const spindle = readSpindle(analysis.machine);
  const sheet = spindle?.motor?.sheet;
  const least = sheet?.facts.quantity('least-speed');
  if (!spindle?.motor || !sheet || !least) return;
  for (const key of ['least-speed', 'top-speed']) {
    const asked = spindle.fields.quantity(key);
    if (!asked || asked.value.value >= least.value.value * (1 - 1e-9) || isFaulty(analysis, asked.at))
      continue;
    yield {
      at: asked.at,
      data: { asked: asked.text, motor: spindle.motor.name, least: least.text },
      related: [
        {
          ...(sheet.file === analysis.file ? {} : { file: sheet.file }),
          at: least.at,
          note: say`least speed of ${spindle.motor.name}`,
        },
      ],
      fixes: key === 'least-speed' ? changeSpeed(analysis, asked, least.value.value) : [],
    };
  }
}
