import type { Analysis } from '../../../analysis.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { lowerFeed } from '../lower-feed.ts';
import { tooFastOf } from '../too-fast.ts';

export const rule: Rule = {
  code: 'motion/feed-above-limit',
  severity: 'error',
  title: 'The wanted feed cannot be reached',
  find: findTooFast,
  say: (data) =>
    `${word(data, 'axis')} cannot reach ${word(data, 'wanted')}: the ${word(data, 'limit')} ends it at ${word(data, 'top')} (${word(data, 'working')}). Ask for less, or change what limits it.`,
};

function* findTooFast(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { at, axis, feed, limit } of tooFastOf(analysis)) {
    const lower = lowerFeed(feed, limit.si);
    yield {
      at,
      data: {
        axis,
        wanted: feed.text,
        limit: limit.limit ?? 'limit',
        top: limit.shown,
        working: limit.working,
      },
      fixes: lower.fix ? [lower.fix] : [],
    };
  }
}
