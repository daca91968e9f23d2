import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Data } from '../../../problem.ts';
import { type Derived, showBriefly } from '../../../values/derived.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { lowerFeed } from '../lower-feed.ts';
import { tooFastOf } from '../too-fast.ts';

export const rule: Rule = {
  code: 'motion/feed-above-limit',
  severity: 'error',
  title: later`The wanted feed cannot be reached`,
  find: findTooFast,
  say: (data) =>
    say`${word(data, 'axis')} cannot reach ${word(data, 'wanted')}: the ${word(data, 'limit')} ends it at ${word(data, 'top')} (${word(data, 'working')}). Ask for less, or change what limits it${sayNext(data)}.`,
};

/** How far it goes without what limits it, so that nobody changes it in vain. */
function sayNext(data: Data): string {
  const next = word(data, 'next');
  if (next === '') return '';
  return say`; without it the ${next} would end it at ${word(data, 'nextFeed')}${data.isEnough === true ? '' : ', which is still too slow'}`;
}

function* findTooFast(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine') return;
  for (const { at, axis, feed, limit } of tooFastOf(analysis)) {
    const next = nextLimit(analysis, axis, limit);
    const lower = lowerFeed(feed, limit.si);
    yield {
      at,
      data: {
        axis,
        wanted: feed.text,
        limit: limit.limit ?? 'limit',
        top: limit.shown,
        working: limit.working,
        ...(next && {
          next: next.limit ?? 'next limit',
          nextFeed: showBriefly(next),
          isEnough: next.si >= feed.value.value,
        }),
      },
      fixes: lower.fix ? [lower.fix] : [],
    };
  }
}

/** The limit that binds once this one is gone, the motor's included. */
function nextLimit({ values }: MachineAnalysis, axis: string, limit: Derived): Derived | undefined {
  const limits = values.byAddress.get(`axes.${axis}.top-feed`)?.inputs ?? [];
  return limits
    .flatMap(({ address }) => (address === undefined ? [] : (values.byAddress.get(address) ?? [])))
    .filter((each) => each.address.includes('.feed-limit.') && each !== limit && each.si >= limit.si)
    .sort((a, b) => a.si - b.si)[0];
}
