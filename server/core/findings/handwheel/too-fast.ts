import type { MachineAnalysis } from '../../analysis.ts';
import type { Given } from '../../shape/fields.ts';
import type { Span } from '../../syntax/node.ts';
import type { Quantity } from '../../units/index.ts';
import type { Derived } from '../../values/derived.ts';
import { restsOnFault } from '../common/held-back.ts';
import { lacksTorque } from '../motion/torque.ts';

/** A handwheel that asks for more than the slowest axis can do. */
export interface TooFastWheel {
  readonly spin: Given<Quantity>;
  /** Where the step of the wheel is given. */
  readonly step: Span | undefined;
  readonly feed: Derived;
  readonly axis: string;
  readonly top: Derived;
}

/** Compares what a spin of the wheel asks for at the largest step with what the slowest axis can do. */
export function handwheelTooFast(analysis: MachineAnalysis): TooFastWheel | undefined {
  const feed = analysis.values.byAddress.get('handwheel.feed-at-100');
  const wheel = analysis.machine.fields.child('handwheel');
  const spin = wheel.quantity('spin');
  if (!feed || !spin || restsOnFault(analysis, feed)) return undefined;
  const slowest = slowestAxis(analysis, feed.unit);
  if (!slowest || feed.si <= slowest.top.si * (1 + 1e-9) || restsOnFault(analysis, slowest.top))
    return undefined;
  return { spin, step: wheel.quantity('step')?.at, feed, ...slowest };
}

/** The axis with the lowest top feed of those that move in the same unit and do not lack torque anyway. */
function slowestAxis(
  analysis: MachineAnalysis,
  unit: string,
): { readonly axis: string; readonly top: Derived } | undefined {
  return [...analysis.machine.axes.keys()]
    .flatMap((axis) => {
      const top = analysis.values.byAddress.get(`axes.${axis}.top-feed`);
      return top?.unit === unit && !lacksTorque(analysis, axis) ? [{ axis, top }] : [];
    })
    .sort((a, b) => a.top.si - b.top.si)[0];
}
