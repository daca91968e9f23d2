import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import type { Derived } from '../../../values/derived.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { lowerFeed } from '../lower-feed.ts';

export const rule: Rule = {
  code: 'motion/feed-above-limit',
  severity: 'error',
  title: 'The wanted feed cannot be reached',
  find: findTooFast,
  say: (data) =>
    `${word(data, 'axis')} cannot reach ${word(data, 'wanted')}: the ${word(data, 'limit')} ends it at ${word(data, 'top')} (${word(data, 'working')}). Ask for less, or change what limits it.`,
};

/** How far the motor's torque reaches is judged by the findings about torque, with what is left of it. */
const HARD_LIMITS = ['pulse-rate', 'critical-speed', 'nut-speed'];

function* findTooFast(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const axis of analysis.machine.axes.values()) {
    const feed = axis.fields.quantity('feed');
    const least = leastLimit(analysis, axis.name);
    if (!feed || !least || feed.value.value <= least.si * (1 + 1e-9)) continue;
    if (isFaulty(analysis, feed.at) || restsOnFault(analysis, least)) continue;
    const lower = lowerFeed(feed, least.si);
    yield {
      at: feed.at,
      data: {
        axis: axis.name,
        wanted: feed.text,
        limit: least.limit ?? 'limit',
        top: least.shown,
        working: least.working,
      },
      fixes: lower.fix ? [lower.fix] : [],
    };
  }
}

function leastLimit({ values }: MachineAnalysis, axis: string): Derived | undefined {
  return HARD_LIMITS.map((name) => values.byAddress.get(`axes.${axis}.feed-limit.${name}`))
    .filter((limit) => limit !== undefined)
    .sort((a, b) => a.si - b.si)[0];
}
