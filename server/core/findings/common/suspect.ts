import type { MachineAnalysis } from '../../analysis.ts';
import { fact } from '../../reuse/fact.ts';
import type { Span } from '../../syntax/node.ts';
import { handwheelTooFast } from '../handwheel/too-fast.ts';
import { overrunsOf } from '../motion/overruns.ts';
import { tooFastOf } from '../motion/too-fast.ts';
import { shortTorqueOf } from '../motion/torque.ts';

/** True for a figure that the machine cannot reach: settings that would follow it are held back until it is changed. */
export function isSuspect(analysis: MachineAnalysis, at: Span): boolean {
  return suspectsIn(analysis).has(at);
}

const suspectsIn = fact('analysis', (analysis: MachineAnalysis): ReadonlySet<Span> => {
  const step = handwheelTooFast(analysis)?.step;
  return new Set([
    ...[...tooFastOf(analysis), ...shortTorqueOf(analysis), ...overrunsOf(analysis)].map((each) => each.at),
    ...(step ? [step] : []),
  ]);
});
