import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { AxisEntry } from '../../../model/machine.ts';
import { feedStoppingWithin } from '../../../motion/profile.ts';
import type { Given } from '../../../shape/fields.ts';
import type { Quantity } from '../../../units/index.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { lowerFeed } from '../lower-feed.ts';

export const rule: Rule = {
  code: 'motion/stop-beyond-overtravel',
  severity: 'warning',
  title: 'The axis needs more way to stop than there is behind the switch',
  find: findOverruns,
  say: (data) =>
    `From ${word(data, 'feed')} ${word(data, 'axis')} takes ${word(data, 'way')} to stop, and behind the switch there are ${word(data, 'overtravel')} to the hard stop: it would run into it${word(data, 'when')}. Up to ${word(data, 'lower')} it stops in time.`,
};

function* findOverruns(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const overtravel = axis.fields.quantity('overtravel');
    if (!overtravel || isFaulty(analysis, overtravel.at)) continue;
    yield* compare(
      analysis,
      axis,
      overtravel,
      'homing-overrun',
      axis.fields.child('homing').quantity('feed'),
    );
    yield* compare(analysis, axis, overtravel, 'stopping-distance', axis.fields.quantity('feed'));
  }
}

function* compare(
  analysis: MachineAnalysis,
  axis: AxisEntry,
  overtravel: Given<Quantity>,
  name: 'homing-overrun' | 'stopping-distance',
  feed: Given<Quantity> | undefined,
): Iterable<Found> {
  const way = analysis.values.byAddress.get(`axes.${axis.name}.${name}`);
  if (!way || !feed || way.si <= overtravel.value.value * (1 + 1e-9) || restsOnFault(analysis, way)) return;
  const lower = lowerFeed(feed, safeFeed(way, overtravel.value.value));
  yield {
    at: feed.at,
    data: {
      axis: axis.name,
      feed: feed.text,
      way: showBriefly(way),
      overtravel: overtravel.text,
      when: name === 'homing-overrun' ? ' at every homing' : ' when a limit switch stops it',
      lower: lower.text,
    },
    related: [{ at: overtravel.at, note: `${overtravel.text} to the hard stop` }],
    fixes: lower.fix ? [lower.fix] : [],
  };
}

/** The feed that stops in time, with the same acceleration and the same delays. */
function safeFeed({ inputs }: Derived, within: number): number {
  const [, acceleration, ...late] = inputs;
  const delay = late.reduce((sum, { value }) => sum + value, 0);
  return feedStoppingWithin(within, acceleration?.value ?? Number.NaN, delay);
}
