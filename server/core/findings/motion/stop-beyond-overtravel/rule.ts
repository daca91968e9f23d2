import type { Analysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import { feedStoppingWithin } from '../../../motion/profile.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { lowerFeed } from '../lower-feed.ts';
import { overrunsOf } from '../overruns.ts';

export const rule: Rule = {
  code: 'motion/stop-beyond-overtravel',
  severity: 'warning',
  title: later`The axis needs more way to stop than there is behind the switch`,
  find: findOverruns,
  say: (data) =>
    say`From ${word(data, 'feed')} ${word(data, 'axis')} takes ${word(data, 'way')} to stop, and behind the switch there are ${word(data, 'overtravel')} to the hard stop: it would run into it${word(data, 'when')}. Up to ${word(data, 'lower')} it stops in time.`,
};

function* findOverruns(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { at, axis, name, feed, way, overtravel } of overrunsOf(analysis)) {
    const lower = lowerFeed(feed, safeFeed(way, overtravel.value.value));
    yield {
      at,
      data: {
        axis,
        feed: feed.text,
        way: showBriefly(way),
        overtravel: overtravel.text,
        when: name === 'homing-overrun' ? say` at every homing` : say` when a limit switch stops it`,
        lower: lower.text,
      },
      related: [
        at === overtravel.at
          ? { at: feed.at, note: say`${axis} runs at ${feed.text}` }
          : { at: overtravel.at, note: say`${overtravel.text} to the hard stop` },
      ],
      fixes: lower.fix ? [lower.fix] : [],
    };
  }
}

/** The feed that stops in time, with the same acceleration and the same delays. */
function safeFeed({ inputs }: Derived, within: number): number {
  const [, acceleration, ...late] = inputs;
  const delay = late.reduce((sum, { value }) => sum + value, 0);
  return feedStoppingWithin(within, acceleration?.value ?? Number.NaN, delay);
}
