import type { Machine } from '../model/resolve.ts';
import { feedAtPulseRate } from '../motion/feed.ts';
import type { AxisParts, AxisScale } from './axis-scale.ts';
import { type Collector, inputOf } from './collect.ts';
import { type Derived, type Input, inputFrom } from './derived.ts';

/** The feed limits of an axis and the least of them, which is its top feed. */
export function deriveFeed(
  machine: Machine,
  parts: AxisParts,
  scale: AxisScale,
  rate: Derived | undefined,
  out: Collector,
): void {
  const base = `axes.${parts.axis.name}`;
  const unit = parts.rotary ? 'rpm' : 'mm/min';
  const pulses =
    scale.pulsesPerLength &&
    inputFrom(scale.pulsesPerLength, parts.rotary ? 'pulses per degree' : 'pulses per length');
  const limits: Derived[] = [];
  if (rate && pulses) {
    const top = inputFrom(rate, 'pulse-rate limit');
    const limit = out.add({
      address: `${base}.feed-limit.pulse-rate`,
      unit,
      formula: `{pulse-rate limit} / {${pulses.name}}`,
      inputs: [top, pulses],
      si: feedAtPulseRate(top.value, pulses.value),
      source: 'definition of the pulse rate',
      limit: 'pulse rate',
    });
    if (limit) limits.push(limit);
  } else out.lack(`${base}.feed-limit.pulse-rate`, rate ? 'pulses per length' : 'the pulse-rate limit');
  deriveTopFeed(base, unit, limits, wantedFeed(machine, parts), out);
}

/** The least limit binds and is named; the wanted feed stands beside it for comparison and never raises or lowers it. */
function deriveTopFeed(
  base: string,
  unit: string,
  limits: readonly Derived[],
  wanted: Input | undefined,
  out: Collector,
): void {
  const [least, ...others] = [...limits].sort((a, b) => a.si - b.si);
  if (!least) {
    out.lack(`${base}.top-feed`, 'a feed limit');
    return;
  }
  const inputs = [least, ...others].map((limit) => inputFrom(limit, `${limit.limit} limit`));
  out.add({
    address: `${base}.top-feed`,
    unit,
    formula:
      inputs.length === 1
        ? `{${inputs[0]?.name}}`
        : `least of ${inputs.map((input) => `{${input.name}}`).join(', ')}`,
    inputs: wanted ? [...inputs, wanted] : inputs,
    si: least.si,
    source: 'the least of the feed limits binds',
    ...(least.limit !== undefined && { limit: least.limit }),
  });
}

function wantedFeed(machine: Machine, { axis }: AxisParts): Input | undefined {
  const feed = axis.fields.quantity('feed');
  return feed && inputOf('wanted feed', feed, machine.file);
}
