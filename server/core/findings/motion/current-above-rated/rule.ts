import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { settingsMeaning } from '../../../model/settings.ts';
import { formatNumber } from '../../../units/index.ts';
import { changeSetting, keyedAt } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { overRatedOf } from '../over-rated.ts';

export const rule: Rule = {
  code: 'motion/current-above-rated',
  severity: 'error',
  title: later`A drive is set to more current than its motor is rated for`,
  find: findTooMuch,
  say: (data) =>
    say`${word(data, 'drive')} puts ${word(data, 'set')} ${word(data, 'drive-basis')} into ${word(data, 'motor')}, which is rated for ${word(data, 'rated')} ${word(data, 'motor-basis')}${word(data, 'compared')}: it overheats. ${word(data, 'wanted') === '' ? 'This drive has no setting that is low enough.' : say`Set it to ${word(data, 'wanted')}.`}`,
};

const BASIS = { peak: 'peak', rms: 'RMS' } as const;

function* findTooMuch(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { drive, motor, set, rated, most } of overRatedOf(analysis)) {
    const keyed = set.input.at && keyedAt(analysis, set.input.at);
    const [setting] = settingsMeaning(drive, 'phase-current');
    const wanted = setting && analysis.values.byAddress.get(`settings.${drive.name}.${setting.name}.wanted`);
    const change = keyed && wanted && changeSetting(analysis, keyed, wanted.si);
    yield {
      at: keyed?.origin === 'set' ? keyed.scalar : drive.key,
      data: {
        drive: drive.name,
        motor: motor.name,
        set: set.input.shown,
        rated: rated.input.shown,
        'drive-basis': BASIS[set.basis],
        'motor-basis': BASIS[rated.basis],
        compared:
          set.basis === rated.basis ? '' : say`, which is ${formatNumber(most, 3)} A ${BASIS[set.basis]}`,
        wanted: change?.text ?? '',
      },
      fixes: change?.fix ? [change.fix] : [],
    };
  }
}
