import type { MachineAnalysis } from '../../analysis.ts';
import type { AxisEntry } from '../../model/machine.ts';
import { fact } from '../../reuse/fact.ts';
import type { Given } from '../../shape/fields.ts';
import type { Span } from '../../syntax/node.ts';
import type { Quantity } from '../../units/index.ts';
import type { Derived } from '../../values/derived.ts';
import { isFaulty, restsOnFault } from '../common/held-back.ts';
import { isTooFast } from './too-fast.ts';
import { lacksTorque } from './torque.ts';

/** A feed from which an axis needs more way to stop than there is behind its switch. */
export interface Overrun {
  /** The feed; where even the homing feed is too high as well as the wanted one, the overtravel. */
  readonly at: Span;
  readonly axis: string;
  readonly name: 'homing-overrun' | 'stopping-distance';
  readonly feed: Given<Quantity>;
  readonly way: Derived;
  readonly overtravel: Given<Quantity>;
}

/** The overruns of all axes, one an axis: an axis that runs over at every feed has too little overtravel. */
export const overrunsOf = fact('analysis', (analysis: MachineAnalysis): readonly Overrun[] => {
  return [...analysis.machine.axes.values()].flatMap((axis) => judge(analysis, axis) ?? []);
});

function judge(analysis: MachineAnalysis, axis: AxisEntry): Overrun | undefined {
  const overtravel = axis.fields.quantity('overtravel');
  if (!overtravel || isFaulty(analysis, overtravel.at)) return undefined;
  const homing = compare(
    analysis,
    axis,
    overtravel,
    'homing-overrun',
    axis.fields.child('homing').quantity('feed'),
  );
  // What a feed that cannot be reached would do is moot.
  const isMoot = isTooFast(analysis, axis.name) || lacksTorque(analysis, axis.name);
  const moving = isMoot
    ? undefined
    : compare(analysis, axis, overtravel, 'stopping-distance', axis.fields.quantity('feed'));
  return homing && moving ? { ...homing, at: overtravel.at } : (homing ?? moving);
}

function compare(
  analysis: MachineAnalysis,
  axis: AxisEntry,
  overtravel: Given<Quantity>,
  name: Overrun['name'],
  feed: Given<Quantity> | undefined,
): Overrun | undefined {
  const way = analysis.values.byAddress.get(`axes.${axis.name}.${name}`);
  if (!way || !feed || way.si <= overtravel.value.value * (1 + 1e-9) || restsOnFault(analysis, way))
    return undefined;
  return { at: feed.at, axis: axis.name, name, feed, way, overtravel };
}
