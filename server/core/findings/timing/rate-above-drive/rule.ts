import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { signalInto } from '../../../circuits/signals.ts';
import { later, say } from '../../../language/say.ts';
import type { AxisEntry } from '../../../model/machine.ts';
import { keyedInMeaning, numberKeyed } from '../../../model/settings.ts';
import { formatBest } from '../../../units/index.ts';
import { axisParts } from '../../../values/axis-parts.ts';
import { closestSetting } from '../../common/closest-setting.ts';
import { isFaulty } from '../../common/held-back.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

export const rule: Rule = {
  code: 'timing/rate-above-drive',
  severity: 'warning',
  title: later`The controller can send pulses faster than the drive takes them`,
  find: findTooFast,
  say: (data) => {
    const setting = word(data, 'setting');
    const start =
      setting === ''
        ? say`${word(data, 'controller')} sends up to ${word(data, 'given')} to ${word(data, 'drive')}`
        : say`At the ${word(data, 'feed')} of ${setting}, ${word(data, 'controller')} sends ${word(data, 'given')} to ${word(data, 'drive')}`;
    return say`${start}, which takes ${word(data, 'taken')}: above that pulses are lost, and with them the place of ${word(data, 'axis')}. ${setting === '' ? 'Keep the feed below what that rate gives.' : say`Set ${setting} to ${word(data, 'wanted')} or less.`}`;
  },
};

function* findTooFast(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const found = findOn(analysis, axis);
    if (found) yield found;
  }
}

function findOn(analysis: MachineAnalysis, axis: AxisEntry): Found | undefined {
  const { machine, nets, values, file } = analysis;
  const { drive } = axisParts(machine, axis);
  const signal = drive && signalInto(machine, nets, drive, 'pulse');
  const taken = signal?.input.circuit.figures.quantity('top-rate');
  const given = signal?.output?.circuit.figures.quantity('top-rate');
  const scale = values.byAddress.get(`axes.${axis.name}.pulses-per-length`);
  if (!drive?.sheet || !signal?.output || !taken || !given || given.value.value <= taken.value.value)
    return undefined;
  const controller = signal.output.part;
  const keyed = keyedInMeaning(file, controller, 'top-feed', { axis: axis.name });
  // A feed that is wanted and keyed in is judged as a feed that cannot be reached.
  if (keyed && (axis.fields.quantity('feed') || isFaulty(analysis, keyed.scalar))) return undefined;
  const feed = keyed && numberKeyed(keyed);
  const rate = feed !== undefined && scale ? feed * scale.si : given.value.value;
  if (rate <= taken.value.value * (1 + 1e-9) || (keyed && !scale)) return undefined;
  const most = scale && {
    name: say`feed at that rate`,
    value: taken.value.value / scale.si,
    shown: taken.text,
  };
  const change = keyed && most && changeSetting(analysis, keyed, closestSetting(keyed.setting, most, 'most'));
  return {
    at: keyed?.origin === 'set' ? keyed.scalar : axis.key,
    data: {
      axis: axis.name,
      controller: controller.name,
      drive: drive.name,
      given: formatBest(Math.min(rate, given.value.value), 'frequency', 4),
      taken: taken.text,
      feed: keyed?.scalar.text ?? '',
      setting: keyed ? say`${keyed.setting.name} of ${controller.name}` : '',
      wanted: change?.text ?? '',
    },
    related: [
      {
        ...(drive.sheet.file === file ? {} : { file: drive.sheet.file }),
        at: taken.at,
        note: say`${drive.name} takes ${taken.text}`,
      },
    ],
    fixes: change?.fix ? [change.fix] : [],
  };
}
