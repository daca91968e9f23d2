import type { Analysis, MachineAnalysis } from '../../analysis.ts';
import { say } from '../../language/say.ts';
import type { AxisEntry } from '../../model/machine.ts';
import type { Data } from '../../problem.ts';
import { fact } from '../../reuse/fact.ts';
import type { Given } from '../../shape/fields.ts';
import type { Span } from '../../syntax/node.ts';
import { formatNumber, type Quantity } from '../../units/index.ts';
import { type Derived, showBriefly } from '../../values/derived.ts';
import { isFaulty, restsOnFault } from '../common/held-back.ts';
import { word } from '../common/words.ts';
import type { Found, Rule } from '../rule.ts';
import { heaviestFigure } from './heaviest.ts';
import { type LowerFeed, lowerFeed } from './lower-feed.ts';
import { isOverRated } from './over-rated.ts';
import { isTooFast } from './too-fast.ts';

/** The usual reserve of a stepper motor that runs without feedback (common practice, no source). */
const USUAL = 2;

/** The two findings about the torque at the wanted feed differ in how much is left, and so in severity. */
export function torqueRule(code: string, size: 'short' | 'scant', title: string): Rule {
  return {
    code,
    severity: size === 'short' ? 'error' : 'warning',
    title,
    find: (analysis) => findTorque(analysis, size),
    say: sayTorque,
  };
}

function sayTorque(data: Data): string {
  const [axis, available, needed, margin] = ['axis', 'available', 'needed', 'margin'].map((key) =>
    word(data, key),
  );
  const top = word(data, 'top');
  const advice =
    top === ''
      ? say`Take a stronger motor, less mass, less acceleration or more gearing.`
      : say`Up to ${top} it has twice what it needs.`;
  return say`At ${word(data, 'feed')} the motor of ${axis} has ${available} and needs ${needed}, ${margin} times: ${word(data, 'result')}. ${advice}`;
}

function* findTorque(analysis: Analysis, size: 'short' | 'scant'): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { at, axis, feed, margin, available, needed, lower } of shortTorqueOf(analysis)) {
    if ((margin.si < 1 ? 'short' : 'scant') !== size) continue;
    yield {
      at,
      data: {
        axis,
        feed: feed.text,
        available: showBriefly(available),
        needed: showBriefly(needed),
        margin: formatNumber(margin.value, 3),
        result: size === 'short' ? say`it stalls` : say`friction, heat or a sagging supply can stall it`,
        top: lower?.text ?? '',
      },
      fixes: lower?.fix ? [lower.fix] : [],
    };
  }
}

/** An axis whose motors have less than the usual reserve at the wanted feed. */
interface ShortTorque {
  /** The feed, or where none is low enough the figure that takes the most torque. */
  readonly at: Span;
  readonly axis: string;
  readonly feed: Given<Quantity>;
  readonly margin: Derived;
  readonly available: Derived;
  readonly needed: Derived;
  readonly lower: LowerFeed | undefined;
}

/** The axes that lack torque at the wanted feed; none of which that feed itself or the current is the mistake. */
export const shortTorqueOf = fact('analysis', (analysis: MachineAnalysis): readonly ShortTorque[] => {
  return [...analysis.machine.axes.values()].flatMap((axis) => judge(analysis, axis) ?? []);
});

/** True for an axis that lacks torque: what else is slow or coarse on it follows from that. */
export function lacksTorque(analysis: MachineAnalysis, axis: string): boolean {
  return shortTorqueOf(analysis).some((each) => each.axis === axis);
}

function judge(analysis: MachineAnalysis, { name, fields }: AxisEntry): ShortTorque | undefined {
  const value = (of: string) => analysis.values.byAddress.get(`axes.${name}.${of}`);
  const feed = fields.quantity('feed');
  const [margin, available, needed] = [
    value('torque-margin'),
    value('torque-available'),
    value('torque-needed'),
  ];
  if (!feed || !margin || !available || !needed || margin.si >= USUAL * (1 - 1e-9)) return undefined;
  if (isFaulty(analysis, feed.at) || restsOnFault(analysis, margin)) return undefined;
  if (isTooFast(analysis, name) || isOverRated(analysis, name)) return undefined;
  const limit = value('feed-limit.motor-speed');
  const lower = limit && limit.si > 0 ? lowerFeed(feed, limit.si) : undefined;
  const at = lower ? feed.at : (heaviestFigure(analysis, needed)?.at ?? feed.at);
  return { at, axis: name, feed, margin, available, needed, lower };
}
