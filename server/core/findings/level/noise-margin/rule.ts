import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { diagnosed, LEAST_MARGIN } from '../../common/diagnose.ts';
import { findingFor, nameInput, sayLevels } from '../../common/input-finding.ts';
import { readsOf, showLevel } from '../../common/sights.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'level/noise-margin',
  severity: 'hint',
  title: later`An input is close to one of its thresholds`,
  find: findSmallMargin,
  say: (data) =>
    say`${nameInput(data)} is only ${word(data, 'margin')} from its threshold (${sayLevels(data)}; on at ${word(data, 'turnsOn')}, off at ${word(data, 'staysOff')}), less than ${LEAST_MARGIN * 100} % of its swing. Noise from motors and converters gets across such a margin sooner: a higher signal voltage or a screened wire helps.`,
};

function* findSmallMargin(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const diagnosis of diagnosed(analysis, 'noise-margin')) {
    const { rest, operations } = diagnosis.input;
    const [atRest, operated] = [rest.margin ?? 0, operations[0]?.sight.margin ?? 0];
    const unit = readsOf(diagnosis.input)?.unit ?? 'V';
    const { level } = atRest <= operated ? rest : (operations[0]?.sight ?? rest);
    yield findingFor(analysis, diagnosis, {
      data: { margin: showLevel(Math.min(atRest, operated), unit) },
      threshold: level === 'off' ? 'off' : 'on',
    });
  }
}
