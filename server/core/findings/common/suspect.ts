import type { MachineAnalysis } from '../../analysis.ts';
import type { Span } from '../../syntax/node.ts';
import { handwheelTooFast } from '../handwheel/too-fast.ts';
import { overrunsOf } from '../motion/overruns.ts';
import { tooFastOf } from '../motion/too-fast.ts';
import { shortTorqueOf } from '../motion/torque.ts';

const kept = new WeakMap<MachineAnalysis, ReadonlySet<Span>>();

/** True for a figure that the machine cannot reach: settings that would follow it are held back until it is changed. */
export function isSuspect(analysis: MachineAnalysis, at: Span): boolean {
  let suspects = kept.get(analysis);
  if (!suspects) {
    const step = handwheelTooFast(analysis)?.step;
    suspects = new Set([
      ...[...tooFastOf(analysis), ...shortTorqueOf(analysis), ...overrunsOf(analysis)].map((each) => each.at),
      ...(step ? [step] : []),
    ]);
    kept.set(analysis, suspects);
  }
  return suspects.has(at);
}
