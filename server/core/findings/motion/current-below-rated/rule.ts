import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { formatNumber } from '../../../units/index.ts';
import { axisParts } from '../../../values/axis-parts.ts';
import { basisOf, inBasis, ratedCurrent, setCurrent } from '../../../values/current.ts';
import { closestSetting } from '../../common/closest-setting.ts';
import { isFaulty } from '../../common/held-back.ts';
import { changeSetting, keyedAt } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

/** Below this share of the rated current a good part of the motor is paid for and not used (common practice, no source). */
const LITTLE = 0.7;

export const rule: Rule = {
  code: 'motion/current-below-rated',
  severity: 'hint',
  title: later`A drive is set to much less current than its motor is rated for`,
  find: findTooLittle,
  say: (data) =>
    say`${data.mixed === true ? say`The figures of ${word(data, 'drive')} and ${word(data, 'motor')} are equal, but one is a peak and the other an RMS current. ` : ''}${word(data, 'drive')} is set to ${word(data, 'set')}, ${word(data, 'share')} % of the ${word(data, 'rated')} that ${word(data, 'motor')} is rated for, and the torque falls with the current. Up to ${word(data, 'wanted')} is possible; less keeps the motor cooler.`,
};

function* findTooLittle(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  const { machine } = analysis;
  for (const axis of machine.axes.values()) {
    for (const { drive, motor } of axisParts(machine, axis).actuators) {
      const rated = motor && ratedCurrent(motor);
      const set = drive && setCurrent(machine, drive);
      const most = rated && drive && inBasis(rated, basisOf(drive));
      const keyed = set?.input.at && keyedAt(analysis, set.input.at);
      if (!motor || !drive || !set || !most || !keyed || isFaulty(analysis, keyed.scalar)) continue;
      const share = set.input.value / most.value;
      const possible = closestSetting(keyed.setting, most, 'most');
      // Equal figures in different bases were probably taken for the same: peak for RMS leaves 71 %.
      const isMixed = share < 1 && set.input.value === rated.input.value && set.basis !== rated.basis;
      if ((share >= LITTLE - 1e-9 && !isMixed) || !(possible > set.input.value * (1 + 1e-9))) continue;
      const change = changeSetting(analysis, keyed, possible);
      yield {
        at: keyed.origin === 'set' ? keyed.scalar : drive.key,
        data: {
          drive: drive.name,
          motor: motor.name,
          set: set.input.shown,
          rated: most.shown,
          share: formatNumber(share * 100, 2),
          wanted: change.text,
          mixed: isMixed,
        },
        fixes: change.fix ? [change.fix] : [],
      };
    }
  }
}
