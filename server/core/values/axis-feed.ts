import { later, said, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { feedAtMotorSpeed, feedAtPulseRate } from '../motion/feed.ts';
import type { Carrier } from './axis-carrier.ts';
import type { AxisParts } from './axis-parts.ts';
import type { AxisScale } from './axis-scale.ts';
import { type Collector, figureInput, listNeeds } from './collect.ts';
import { type Derived, type Input, showBriefly } from './derived.ts';
import { inputFrom } from './input.ts';

/** What sets a limit to the feed of an axis. */
export interface SpeedLimits {
  readonly pulseRate: Derived | undefined;
  /** The speed up to which the motor has torque enough. */
  readonly usable: Derived | undefined;
  /** The feeds that the screw allows, where there is one. */
  readonly screw: readonly Derived[];
}

/** The feed limits of an axis and the least of them, which is its top feed. */
export function deriveFeed(
  machine: Machine,
  parts: AxisParts,
  scale: AxisScale,
  carrier: Carrier,
  speeds: SpeedLimits,
  out: Collector,
): void {
  const base = `axes.${parts.axis.name}`;
  const unit = parts.rotary ? 'rpm' : 'mm/min';
  const pulse = limitByPulses(base, unit, parts, scale, speeds.pulseRate, out);
  const motor = limitByMotor(base, unit, carrier, speeds.usable, out);
  const limits = [pulse, motor, ...speeds.screw].filter((limit) => limit !== undefined);
  const unknown = [pulse ? '' : later`pulse rate`, motor ? '' : later`motor speed`].filter(
    (name) => name !== '',
  );
  const wanted = figureInput(later`wanted feed`, parts.axis.fields, 'feed', machine.file);
  deriveTopFeed({ address: `${base}.top-feed`, unit }, limits, unknown, wanted, out);
}

function limitByPulses(
  base: string,
  unit: string,
  { rotary }: AxisParts,
  { pulsesPerLength }: AxisScale,
  rate: Derived | undefined,
  out: Collector,
): Derived | undefined {
  const address = `${base}.feed-limit.pulse-rate`;
  if (!rate || !pulsesPerLength) {
    out.lack(
      address,
      listNeeds([
        [rate, say`the pulse-rate limit`],
        [pulsesPerLength, say`pulses per length`],
      ]),
    );
    return undefined;
  }
  const top = inputFrom(rate, later`pulse-rate limit`);
  const pulses = inputFrom(pulsesPerLength, rotary ? later`pulses per degree` : later`pulses per length`);
  return out.add({
    address,
    unit,
    formula: `{pulse-rate limit} / {${pulses.name}}`,
    inputs: [top, pulses],
    si: feedAtPulseRate(top.value, pulses.value),
    source: say`definition of the pulse rate`,
    limit: later`pulse rate`,
  });
}

function limitByMotor(
  base: string,
  unit: string,
  { travel, gearing }: Carrier,
  usable: Derived | undefined,
  out: Collector,
): Derived | undefined {
  const address = `${base}.feed-limit.motor-speed`;
  if (!usable || !travel) {
    out.lack(
      address,
      listNeeds([
        [usable, say`the speed up to which the motor is strong enough`],
        [travel, say`a screw, belt, rack or worm`],
      ]),
    );
    return undefined;
  }
  const speed = inputFrom(usable, later`usable motor speed`);
  return out.add({
    address,
    unit,
    formula: `{usable motor speed} × {${travel.name}} / {gearing}`,
    inputs: [speed, travel, gearing],
    si: feedAtMotorSpeed(speed.value, travel.value, gearing.value),
    source: say`arithmetic of the drive train`,
    limit: later`motor speed`,
  });
}

/** What would push a limit out, so that nobody pays for what gains nothing. */
const REMEDIES: Readonly<Record<string, string>> = {
  'pulse rate': later`a faster pulse rate`,
  'motor speed': later`a stronger motor`,
  'critical speed': later`a stiffer screw`,
  'nut speed': later`a faster nut`,
};

function sayBinding(least: Derived, others: readonly Derived[]): string {
  const binds = say`the ${least.limit} binds at ${showBriefly(least)}`;
  const [next] = others;
  if (!next) return binds;
  const idle = others
    .map(({ limit = '' }) => said(REMEDIES[limit] ?? say`more ${limit}`))
    .join(', ')
    .replace(/, ([^,]*)$/, say` or $1`);
  return say`${binds}: ${idle} would gain nothing; without it the ${next.limit} would bind at ${showBriefly(next)}`;
}

/**
 * The least limit binds and is named; the others follow in their order, so that the next one can be read. The wanted
 * feed stands beside them for comparison and never raises or lowers the top feed.
 */
function deriveTopFeed(
  at: { readonly address: string; readonly unit: string },
  limits: readonly Derived[],
  unknown: readonly string[],
  wanted: Input | undefined,
  out: Collector,
): void {
  const [least, ...others] = [...limits].sort((a, b) => a.si - b.si);
  if (!least) {
    out.lack(at.address, say`a feed limit`);
    return;
  }
  const inputs = [least, ...others].map((limit) => inputFrom(limit, say`${limit.limit} limit`));
  const names = inputs.map((input) => `{${input.name}}`);
  const gap = unknown.length > 0 ? say`; the limit by ${unknown.join(say` and `)} is not known` : '';
  out.add({
    ...at,
    formula: names.length === 1 ? `${names[0]}` : say`least of ${names.join(', ')}`,
    inputs: wanted ? [...inputs, wanted] : inputs,
    si: least.si,
    source: `${sayBinding(least, others)}${gap}`,
    ...(least.limit !== undefined && { limit: least.limit }),
  });
}
