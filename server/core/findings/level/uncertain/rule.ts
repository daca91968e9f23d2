import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { diagnosed } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { thresholdPlace } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { adviseOnPair, pairData } from '../line-pair.ts';
import { adviseOnDrop, dropData } from '../sensor-drop.ts';

export const rule: Rule = {
  code: 'level/uncertain',
  severity: 'warning',
  title: later`An input is left between its two thresholds`,
  find: findUncertain,
  say: (data) =>
    say`${nameInput(data)} is left between its thresholds: ${sayLevels(data)}; it is on at ${word(data, 'turnsOn')} and off at ${word(data, 'staysOff')}. In between nobody can tell: it may work today and not when it is warm. ${adviseOnPair(data, adviseOnDrop(data, say`Use another voltage, or a smaller resistance in its wire.`))}`,
};

function* findUncertain(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'uncertain'))
    yield findingFor(analysis, diagnosis, {
      data: { ...pairData(diagnosis), ...dropData(diagnosis) },
      related: [thresholdPlace(analysis, diagnosis.input, 'off')],
    });
}
