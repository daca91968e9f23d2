import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { showBriefly } from '../../../values/derived.ts';
import { restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { lacksTorque } from '../torque.ts';

export const rule: Rule = {
  code: 'motion/screw-buckles',
  severity: 'error',
  title: later`The thrust is more than the screw bears without buckling`,
  find: findBuckling,
  say: (data) =>
    say`${word(data, 'axis')} pushes its screw with ${word(data, 'thrust')}, and it bears ${word(data, 'load')} without bending out. A thicker or shorter screw bears more, and so do ends that are both fixed.`,
};

function* findBuckling(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const thrust = analysis.values.byAddress.get(`axes.${axis.name}.thrust`);
    const load = analysis.values.byAddress.get(`axes.${axis.name}.screw-buckling-load`);
    const screw = axis.fields.child('screw').node;
    const root = load?.inputs.find(({ name }) => name === 'root diameter')?.at;
    if (!thrust || !load || !screw || !root) continue;
    // Each motor of an axis turns a screw of its own, and they share the thrust.
    const share = thrust.si / Math.max(1, axis.motors.length);
    // A thrust for which the motor is too weak never comes about.
    if (lacksTorque(analysis, axis.name)) continue;
    if (share <= load.si || restsOnFault(analysis, thrust) || restsOnFault(analysis, load)) continue;
    yield {
      at: root,
      data: {
        axis: axis.name,
        thrust: axis.motors.length > 1 ? say`its share of ${showBriefly(thrust)}` : showBriefly(thrust),
        load: showBriefly(load),
      },
    };
  }
}
