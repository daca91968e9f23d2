import type { MachineAnalysis } from '../../analysis.ts';
import { fact } from '../../reuse/fact.ts';
import type { Given } from '../../shape/fields.ts';
import type { Span } from '../../syntax/node.ts';
import type { Quantity } from '../../units/index.ts';
import type { Derived } from '../../values/derived.ts';
import { isFaulty, restsOnFault } from '../common/held-back.ts';

/** An axis whose wanted feed is beyond what pulses or screw allow. */
export interface TooFast {
  readonly at: Span;
  readonly axis: string;
  readonly feed: Given<Quantity>;
  readonly limit: Derived;
}

/** How far the motor's torque reaches is judged by the findings about torque, with what is left of it. */
const HARD_LIMITS = ['pulse-rate', 'critical-speed', 'nut-speed'];

/** The axes that cannot reach the feed that is wanted of them, each with the least of its limits. */
export const tooFastOf = fact('analysis', (analysis: MachineAnalysis): readonly TooFast[] => {
  return [...analysis.machine.axes.values()].flatMap(({ name, fields }) => {
    const feed = fields.quantity('feed');
    const limit = leastLimit(analysis, name);
    if (!feed || !limit || feed.value.value <= limit.si * (1 + 1e-9)) return [];
    if (isFaulty(analysis, feed.at) || restsOnFault(analysis, limit)) return [];
    return [{ at: feed.at, axis: name, feed, limit }];
  });
});

/** True for an axis that cannot reach its feed: what that feed would do to motor and switches is moot. */
export function isTooFast(analysis: MachineAnalysis, axis: string): boolean {
  return tooFastOf(analysis).some((each) => each.axis === axis);
}

function leastLimit({ values }: MachineAnalysis, axis: string): Derived | undefined {
  return HARD_LIMITS.map((name) => values.byAddress.get(`axes.${axis}.feed-limit.${name}`))
    .filter((limit) => limit !== undefined)
    .sort((a, b) => a.si - b.si)[0];
}
