import type { AxisEntry } from '../model/machine.ts';
import { formatNumber, type Quantity } from '../units/index.ts';

/** How far and how fast an axis is moved to try it; undefined where the definition does not say enough. */
export interface TrialMoves {
  /** A first move: short and slow. */
  readonly jog: string;
  /** A move long enough to measure by. */
  readonly long: string;
  readonly slowly: string;
}

/** A twentieth of the travel, and no more than 10 mm or 10 degrees (common practice, no source). */
const JOG_SHARE = 1 / 20;
const LONGEST_JOG = { length: 0.01, angle: Math.PI / 18 };
/** Four fifths of the travel, so that a wrong scale ends before the hard stop. */
const LONG_SHARE = 0.8;
/** A tenth of the feed that is wanted, and no more than the homing feed (common practice, no source). */
const SLOW_SHARE = 0.1;

/** Moves in the units in which travel and feed were written down. */
export function trialMoves({ fields }: AxisEntry, rotary: boolean): TrialMoves | undefined {
  const travel = fields.quantity('travel')?.value;
  const feed = fields.quantity('feed')?.value;
  if (!travel || !feed || !(travel.value > 0) || !(feed.value > 0)) return undefined;
  const most = rotary ? LONGEST_JOG.angle : LONGEST_JOG.length;
  const homing = fields.child('homing').quantity('feed')?.value.value ?? Number.POSITIVE_INFINITY;
  return {
    jog: inUnitOf(travel, Math.min(travel.value * JOG_SHARE, most)),
    // A whole turn comes back to its mark, which is easier to see than any angle.
    long:
      rotary && travel.value >= 2 * Math.PI * 0.999 ? '360 deg' : inUnitOf(travel, travel.value * LONG_SHARE),
    slowly: inUnitOf(feed, Math.min(feed.value * SLOW_SHARE, homing)),
  };
}

/** A value in SI units in the unit of another one, rounded down to 1, 2, 3 or 5 and zeros. */
function inUnitOf({ value, number, unit }: Quantity, si: number): string {
  const inUnit = (si / value) * number;
  const power = 10 ** Math.floor(Math.log10(inUnit));
  const digit = [5, 3, 2, 1].find((each) => each * power <= inUnit * (1 + 1e-9)) ?? 1;
  return `${formatNumber(digit * power)} ${unit.symbol}`;
}
