import type { MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import { keyedInMeaning } from '../../model/settings.ts';
import type { Fields } from '../../shape/fields.ts';
import { controllerOf } from '../../values/axis-parts.ts';
import { newestRecords } from '../../values/records-of.ts';
import { isFaulty } from '../common/held-back.ts';
import type { Found } from '../rule.ts';
import { settingDiffers } from '../setting/follow.ts';

/** Measured plays that were made with a backlash which is neither keyed in nor was corrected to what is. */
export function olderPlays(analysis: MachineAnalysis): Found[] {
  return [...newestRecords(analysis.machine, 'backlash')].flatMap(
    ([axis, record]) => olderPlay(analysis, axis, record) ?? [],
  );
}

function olderPlay(analysis: MachineAnalysis, axis: string, record: Fields): Found | undefined {
  const { machine, values } = analysis;
  const controller = controllerOf(machine, axis);
  const keyed = controller && keyedInMeaning(machine.file, controller, 'backlash', { axis });
  const [seen, before] = [record.quantity('backlash'), record.quantity('setting')];
  if (!keyed || !seen || !before || isFaulty(analysis, keyed.scalar) || isFaulty(analysis, seen.at))
    return undefined;
  const address = `settings.${keyed.part.name}.${keyed.setting.name}`;
  const [now, wanted] = [values.byAddress.get(`${address}.now`), values.byAddress.get(`${address}.wanted`)];
  if (!now || Math.abs(before.value.value - now.si) <= 1e-9) return undefined;
  if (wanted && (wanted.beyond !== undefined || !settingDiffers(keyed.setting, now, wanted)))
    return undefined;
  return {
    at: before.at,
    data: {
      what: 'play',
      axis,
      seen: seen.text,
      before: before.text,
      setting: say`${keyed.setting.name} of ${keyed.part.name}`,
      now: keyed.scalar.text,
    },
  };
}
