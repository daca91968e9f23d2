import type { Analysis } from '../analysis.ts';
import { said } from '../language/say.ts';
import type { Derived, Input, Values } from '../values/derived.ts';
import { type Changed, compareNamed } from './changed.ts';

/** A derived value before and after, with what it follows from; undefined where it is not computed. */
export interface ChangedValue extends Changed<Derived> {
  readonly causes: readonly Cause[];
}

/** A figure that was written down, before and after, or why a value is not computed in one of the versions. */
export interface Cause {
  readonly name: string;
  readonly before: string | undefined;
  readonly after: string | undefined;
}

/** All values that differ, in the order in which they are computed. */
export function compareValues(before: Analysis, after: Analysis): ChangedValue[] {
  return compareNamed(before.values.byAddress, after.values.byAddress, showValue).map((changed) => ({
    ...changed,
    get causes() {
      return causesOf(changed, before.values, after.values);
    },
  }));
}

/** A value as it is shown, with what limits it. */
export function showValue(value: Derived): string {
  return value.limit === undefined ? value.shown : `${value.shown} (${said(value.limit)})`;
}

/** The written figures from which a difference follows, however far back; without them the wiring is the cause. */
function causesOf({ id, before, after }: Changed<Derived>, old: Values, now: Values): Cause[] {
  if (!before || !after) {
    const needs = (before ? now : old).missing.get(id)?.needs;
    return needs === undefined
      ? []
      : [{ name: 'needs', before: before ? undefined : needs, after: before ? needs : undefined }];
  }
  const causes = new Map<string, Cause>();
  collect(before, after, old, now, causes, new Set());
  return [...causes.values()];
}

function collect(
  before: Derived,
  after: Derived,
  old: Values,
  now: Values,
  causes: Map<string, Cause>,
  seen: Set<string>,
): void {
  if (seen.has(before.address)) return;
  seen.add(before.address);
  const [inputs, others] = [byName(before.inputs), byName(after.inputs)];
  for (const { id, before: was, after: is } of compareNamed(inputs, others, ({ shown }) => shown)) {
    const [deeper, there] = [was?.address, is?.address].map((address, side) =>
      address === undefined ? undefined : (side === 0 ? old : now).byAddress.get(address),
    );
    if (deeper && there && deeper.address === there.address) collect(deeper, there, old, now, causes, seen);
    else causes.set(id, { name: id, before: was?.shown, after: is?.shown });
  }
}

function byName(inputs: readonly Input[]): Map<string, Input> {
  return new Map(inputs.map((input) => [input.name, input]));
}

/** Values that people ask for; the others are steps on the way to them, and `explain` shows those. */
const HEADLINES: Readonly<Record<string, RegExp>> = {
  axes: /\.(?:pulses-per-(?:turn|length)|resolution|top-feed|torque-margin|pulse-rate-limit|timing\.[a-z-]+|microstep-torque|rounding-drift|ramp-time|stopping-distance|homing-overrun|screw-buckling-load|corrected-pulses-per-length)$/,
  parts: /\.(?:supply-voltage|load|load-share)$/,
  spindle:
    /\.(?:top-speed|volts-per-1000rpm|speed-step|ramp-time|wait-margin|reading-error|corrected-top-speed)$/,
  handwheel: /./,
  settings: /\.wanted$/,
  circuits: /\.(?:rest|operated|margin)$/,
  wires: /\.(?:drop|drop-share|current)$/,
};

/** True for values that a headline shows, rather than a step on the way to one. */
export function isHeadline(address: string): boolean {
  const section = address.slice(0, address.indexOf('.'));
  return Object.hasOwn(HEADLINES, section) && (HEADLINES[section]?.test(address) ?? false);
}
