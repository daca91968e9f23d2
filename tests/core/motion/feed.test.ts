import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  feedAtCriticalSpeed,
  feedAtMotorSpeed,
  feedAtPulseRate,
  motorSpeed,
  nutTopSpeed,
  pulseRateAtFeed,
} from '../../../server/core/motion/feed.ts';
import { pulsesPerTravel, pulsesPerTurn } from '../../../server/core/motion/pulses.ts';

const some = fc.double({ min: 1e-6, max: 1e6, noNaN: true });

describe('laws', () => {
  it('finer microsteps never raise the feed limit', () => {
    const microsteps = fc.integer({ min: 1, max: 256 });
    fc.assert(
      fc.property(microsteps, microsteps, some, some, some, (a, b, rate, gearing, travel) => {
        const limit = (n: number) =>
          feedAtPulseRate(rate, pulsesPerTravel(pulsesPerTurn(200, n), gearing, travel));
        expect(limit(Math.max(a, b))).toBeLessThanOrEqual(limit(Math.min(a, b)));
      }),
    );
  });
  it('the feed of the pulse rate of a feed is that feed', () => {
    fc.assert(
      fc.property(some, some, (feed, pulses) => {
        expect(feedAtPulseRate(pulseRateAtFeed(feed, pulses), pulses) / feed).toBeCloseTo(1, 12);
      }),
    );
  });
  it('the feed of the motor speed of a feed is that feed', () => {
    fc.assert(
      fc.property(some, some, some, (feed, travel, gearing) => {
        expect(feedAtMotorSpeed(motorSpeed(feed, travel, gearing), travel, gearing) / feed).toBeCloseTo(
          1,
          12,
        );
      }),
    );
  });
  it('a screw at the feed of its critical speed turns at 80 % of that speed', () => {
    fc.assert(
      fc.property(some, some, (critical, lead) => {
        expect(motorSpeed(feedAtCriticalSpeed(critical, lead), lead, 1) / critical).toBeCloseTo(0.8, 12);
      }),
    );
  });
});

describe('figures out of range', () => {
  it.each([-1, Number.NaN])('%d gives NaN wherever it stands', (bad) => {
    const results = [
      feedAtPulseRate(bad, 1),
      feedAtPulseRate(1, bad),
      pulseRateAtFeed(bad, 1),
      pulseRateAtFeed(1, bad),
      motorSpeed(bad, 1, 1),
      motorSpeed(1, bad, 1),
      motorSpeed(1, 1, bad),
      feedAtMotorSpeed(bad, 1, 1),
      feedAtMotorSpeed(1, bad, 1),
      feedAtMotorSpeed(1, 1, bad),
      feedAtCriticalSpeed(bad, 1),
      feedAtCriticalSpeed(1, bad),
      nutTopSpeed(bad, 1),
      nutTopSpeed(1, bad),
    ];
    expect(results.filter((result) => !Number.isNaN(result))).toEqual([]);
  });
  it('standing still is a feed, but no travel per turn is not', () => {
    expect(motorSpeed(0, 0.005, 1)).toBe(0);
    expect(feedAtPulseRate(0, 1)).toBe(0);
    expect(motorSpeed(0, 0, 1)).toBeNaN();
    expect(feedAtPulseRate(1, 0)).toBeNaN();
  });
  it('an unlimited pulse rate is an unlimited feed', () => {
    expect(feedAtPulseRate(Number.POSITIVE_INFINITY, 320_000)).toBe(Number.POSITIVE_INFINITY);
  });
});
