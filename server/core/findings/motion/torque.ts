import type { Analysis } from '../../analysis.ts';
import type { Data } from '../../problem.ts';
import { formatNumber } from '../../units/index.ts';
import { showBriefly } from '../../values/derived.ts';
import { isFaulty, restsOnFault } from '../common/held-back.ts';
import { word } from '../common/words.ts';
import type { Found, Rule } from '../rule.ts';
import { lowerFeed } from './lower-feed.ts';

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
      ? 'Take a stronger motor, less mass, less acceleration or more gearing.'
      : `Up to ${top} it has twice what it needs.`;
  return `At ${word(data, 'feed')} the motor of ${axis} has ${available} and needs ${needed}, ${margin} times: ${word(data, 'result')}. ${advice}`;
}

function* findTorque(analysis: Analysis, size: 'short' | 'scant'): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const value = (name: string) => analysis.values.byAddress.get(`axes.${axis.name}.${name}`);
    const feed = axis.fields.quantity('feed');
    const [margin, available, needed] = [
      value('torque-margin'),
      value('torque-available'),
      value('torque-needed'),
    ];
    if (!feed || !margin || !available || !needed) continue;
    const found = margin.si < 1 ? 'short' : margin.si < USUAL * (1 - 1e-9) ? 'scant' : 'enough';
    if (found !== size || isFaulty(analysis, feed.at) || restsOnFault(analysis, margin)) continue;
    const limit = value('feed-limit.motor-speed');
    const lower = limit && limit.si > 0 ? lowerFeed(feed, limit.si) : undefined;
    yield {
      at: feed.at,
      data: {
        axis: axis.name,
        feed: feed.text,
        available: showBriefly(available),
        needed: showBriefly(needed),
        margin: formatNumber(margin.value, 3),
        result: size === 'short' ? 'it stalls' : 'friction, heat or a sagging supply can stall it',
        top: lower?.text ?? '',
      },
      fixes: lower?.fix ? [lower.fix] : [],
    };
  }
}
