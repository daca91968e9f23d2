import { say } from '../../language/say.ts';
import type { Fix } from '../../problem.ts';
import type { Given } from '../../shape/fields.ts';
import { type Span, spanWithin } from '../../syntax/node.ts';
import { formatNumber, fromSi, type Quantity } from '../../units/index.ts';

/** A lower feed in the unit in which it was typed, and the change of the text that writes it. */
export interface LowerFeed {
  readonly text: string;
  readonly fix: Fix | undefined;
}

/** The feed that a limit (in SI units) allows, rounded down to three figures. */
export function lowerFeed({ value, at }: Given<Quantity>, limit: number): LowerFeed {
  const lower = roundDown(fromSi(limit, value.unit));
  const text = `${formatNumber(lower)} ${value.unit.symbol}`;
  const place = numberPlace(at, value);
  const edits = place && lower > 0 ? [{ at: place, text: formatNumber(lower) }] : [];
  return {
    text,
    fix: edits.length > 0 ? { title: say`Set the feed to ${text}`, edits, safe: false } : undefined,
  };
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
