import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { sensorSide, sensorsOf } from '../../common/acting.ts';
import { diagnosed, sideOf } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { otherSensorSheets } from '../../common/sensor-sheets.ts';
import { presentAt } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { addPullResistor } from '../pull-resistor.ts';

export const rule: Rule = {
  code: 'polarity/sensor-kind',
  severity: 'error',
  title: later`A sensor switches the wrong way for its input`,
  find: findWrongKind,
  say: (data) => {
    const isNpn = data.switching === 'npn';
    const kind = isNpn
      ? say`an NPN sensor, which joins its output to minus`
      : say`a PNP sensor, which joins its output to plus`;
    return say`${nameInput(data)} can never turn on: ${sayLevels(data)}, and it needs ${word(data, 'turnsOn')} to turn on. ${word(data, 'sensor')} is ${kind}, and this input must be joined to ${isNpn ? 'plus' : 'minus'}. Use ${isNpn ? 'a PNP' : 'an NPN'} sensor, or another input.`;
  },
};

function* findWrongKind(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'sensor-kind')) {
    const { input } = diagnosis;
    const sensor = sensorsOf(input).find((each) => sensorSide(each) !== sideOf(input));
    if (!sensor) continue;
    const at = presentAt(analysis, sensor.element.at);
    yield findingFor(analysis, diagnosis, {
      data: { sensor: sensor.part.name, switching: sensorSide(sensor) === 'down' ? 'npn' : 'pnp' },
      propose: () => [
        ...otherSensorSheets(analysis, at, { switching: 'other' }),
        ...otherSensorSheets(analysis, at, { switching: 'other', rest: 'other' }),
        ...addPullResistor(analysis, input),
      ],
    });
  }
}
