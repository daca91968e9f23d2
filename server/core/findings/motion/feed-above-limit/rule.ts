import type { Analysis } from '../../../analysis.ts';
import { type Span, spanWithin } from '../../../syntax/node.ts';
import { formatNumber, fromSi, type Quantity } from '../../../units/index.ts';
import { isFaulty, restsOnFault } from '../../common/held-back.ts';
import { word } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';

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
  for (const axis of analysis.machine.axes.values()) {
    const feed = axis.fields.quantity('feed');
    const top = analysis.values.byAddress.get(`axes.${axis.name}.top-feed`);
    if (!feed || !top || feed.value.value <= top.si * (1 + 1e-9)) continue;
    if (isFaulty(analysis, feed.at) || restsOnFault(analysis, top)) continue;
    const limit = top.limit ?? 'limit';
    const cause = analysis.values.byAddress.get(top.inputs[0]?.address ?? '') ?? top;
    const lower = roundDown(fromSi(top.si, feed.value.unit));
    const text = `${formatNumber(lower)} ${feed.value.unit.symbol}`;
    const at = numberPlace(feed.at, feed.value);
    const fixes =
      at && lower > 0
        ? [{ title: `Set the feed to ${text}`, edits: [{ at, text: formatNumber(lower) }], safe: false }]
        : [];
    yield {
      at: feed.at,
      data: { axis: axis.name, wanted: feed.text, limit, top: top.shown, working: cause.working },
      fixes,
    };
  }
}

/** Three figures, rounded down: a feed of 4687.5 is set to 4680. */
function roundDown(feed: number): number {
  const step = 10 ** (Math.floor(Math.log10(feed)) - 2);
  return Number((Math.floor(feed / step + 1e-9) * step).toPrecision(3));
}

/** Where the number of a feed stands; the unit beside it is kept. */
function numberPlace(at: Span, { numberAt }: Quantity): Span | undefined {
  if (!('kind' in at)) return undefined;
  const scalar = at as Parameters<typeof spanWithin>[0];
  return scalar.textFrom === undefined ? undefined : spanWithin(scalar, numberAt[0], numberAt[1]);
}
