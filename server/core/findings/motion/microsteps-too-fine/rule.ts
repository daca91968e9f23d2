import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { AxisEntry } from '../../../model/machine.ts';
import { keyedInMeaning } from '../../../model/settings.ts';
import { microstepTorque } from '../../../motion/torque.ts';
import type { Fix } from '../../../problem.ts';
import { axisParts } from '../../../values/axis-parts.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { restsOnFault } from '../../common/held-back.ts';
import { changeSetting } from '../../common/setting-edit.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { lacksTorque } from '../torque.ts';

export const rule: Rule = {
  code: 'motion/microsteps-too-fine',
  severity: 'hint',
  title: later`One microstep moves nothing`,
  find: findTooFine,
  say: (data) => {
    const coarser = word(data, 'coarser');
    return say`One microstep of ${word(data, 'axis')} pushes with ${word(data, 'torque')}, and moving it takes ${word(data, 'needed')} without any cutting: several pulses pass before it moves, so it is not as fine as its resolution says. ${coarser === '' ? 'No setting of the drive is coarse enough; friction, weight or the gearing would have to change.' : say`${coarser} microsteps would do, at a higher feed for the same pulse rate.`}`;
  },
};

function* findTooFine(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const value = (name: string) => analysis.values.byAddress.get(`axes.${axis.name}.${name}`);
    const [torque, needed, standstill] = [
      value('microstep-torque'),
      value('steady-torque'),
      value('standstill-torque'),
    ];
    if (!torque || !needed || !standstill || torque.si >= needed.si * (1 - 1e-9)) continue;
    if (restsOnFault(analysis, torque) || restsOnFault(analysis, needed)) continue;
    if (lacksTorque(analysis, axis.name)) continue;
    yield describe(analysis, axis, torque, needed, standstill);
  }
}

function describe(
  analysis: MachineAnalysis,
  axis: AxisEntry,
  torque: Derived,
  needed: Derived,
  standstill: Derived,
): Found {
  const { machine } = analysis;
  const settings = axisParts(machine, axis).actuators.flatMap(({ drive }) => {
    const keyed = drive && keyedInMeaning(machine.file, drive, 'microsteps');
    return keyed ? [keyed] : [];
  });
  const [first] = settings;
  const fitting = (first?.setting.choices ?? [])
    .map(Number)
    .filter((count) => count >= 1 && microstepTorque(standstill.si, count) >= needed.si);
  const coarser = fitting.length > 0 ? Math.max(...fitting) : undefined;
  const changes =
    coarser === undefined ? [] : settings.map((keyed) => changeSetting(analysis, keyed, coarser));
  const fixes = changes.flatMap(({ fix }) => fix ?? []);
  const [fix] = fixes;
  const all: Fix[] =
    fix && fixes.length === settings.length ? [{ ...fix, edits: fixes.flatMap(({ edits }) => edits) }] : [];
  return {
    at: first?.origin === 'set' ? first.scalar : axis.key,
    data: {
      axis: axis.name,
      torque: showBriefly(torque),
      needed: showBriefly(needed),
      coarser: coarser === undefined ? '' : String(coarser),
    },
    fixes: all.map((each) =>
      settings.length > 1
        ? { ...each, title: say`Set the microsteps of all drives of ${axis.name} to ${coarser}` }
        : each,
    ),
  };
}
