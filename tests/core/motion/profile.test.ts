import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  feedStoppingWithin,
  move,
  rampTo,
  stoppingDistance,
  stopWithJerk,
} from '../../../server/core/motion/profile.ts';
import { expectNaN } from './outside.ts';

const some = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
const delay = fc.integer({ min: 0, max: 1000 }).map((thousandths) => thousandths / 1000);

describe('moves', () => {
  it('go the whole distance: ramps and cruise add up', () => {
    fc.assert(
      fc.property(some, some, some, (distance, feed, acceleration) => {
        const made = move(distance, feed, acceleration);
        expect((2 * made.ramp.distance + made.peak * made.cruise) / distance).toBeCloseTo(1, 9);
        expect(made.peak).toBeLessThanOrEqual(feed);
        expect(made.cruise).toBeGreaterThanOrEqual(0);
      }),
    );
  });
  it('are triangles exactly when both ramps do not fit', () => {
    expect(move(0.02, 0.1, 0.4)).toMatchObject({ triangular: true });
    expect(move(0.03, 0.1, 0.4)).toMatchObject({ triangular: false });
    // Both ramps of 0.5² / 2 just meet on 0.25: the feed is reached and not held.
    expect(move(0.25, 0.5, 1)).toMatchObject({ triangular: true, peak: 0.5, cruise: 0, time: 1 });
  });
  it('never take longer with more acceleration', () => {
    fc.assert(
      fc.property(some, some, some, some, (distance, feed, acceleration, more) => {
        const sooner = move(distance, feed, acceleration + more).time;
        expect(sooner).toBeLessThanOrEqual(move(distance, feed, acceleration).time * (1 + 1e-12));
      }),
    );
  });
  it('scale: distance and feed doubled at the same time double the acceleration', () => {
    fc.assert(
      fc.property(some, some, some, (distance, feed, acceleration) => {
        const doubled = move(2 * distance, 2 * feed, 2 * acceleration).time;
        expect(doubled / move(distance, feed, acceleration).time).toBeCloseTo(1, 9);
      }),
    );
  });
  // The speed is added up in small slices of time, which knows nothing of the closed form.
  it('agree with adding up the speed in small slices', () => {
    const { time, peak } = move(0.5, 0.1, 0.4);
    const slices = 100_000;
    let way = 0;
    for (let slice = 0; slice < slices; slice++) {
      const now = ((slice + 0.5) / slices) * time;
      way += Math.min(peak, 0.4 * now, 0.4 * (time - now)) * (time / slices);
    }
    expect(way).toBeCloseTo(0.5, 8);
  });
});

describe('stopping', () => {
  it('the feed that stops within a stopping distance is the feed it was made from', () => {
    fc.assert(
      fc.property(some, some, delay, (feed, acceleration, lag) => {
        const distance = stoppingDistance(feed, acceleration, lag);
        expect(feedStoppingWithin(distance, acceleration, lag) / feed).toBeCloseTo(1, 6);
      }),
    );
  });
  it('twice the feed takes four times the way, without delay', () => {
    expect(stoppingDistance(0.1, 0.4) / stoppingDistance(0.05, 0.4)).toBeCloseTo(4, 12);
  });
  it('limited jerk never stops sooner, and endless jerk stops as if there were no limit', () => {
    fc.assert(
      fc.property(some, some, some, (feed, acceleration, jerk) => {
        const limited = stopWithJerk(feed, acceleration, jerk);
        const sharp = rampTo(feed, acceleration);
        expect(limited.time).toBeGreaterThanOrEqual(sharp.time * (1 - 1e-12));
        expect(limited.distance).toBeGreaterThanOrEqual(sharp.distance * (1 - 1e-12));
        expect(stopWithJerk(feed, acceleration, Number.POSITIVE_INFINITY).time / sharp.time).toBeCloseTo(
          1,
          12,
        );
      }),
    );
  });
  it('limited jerk has no jump where the deceleration is just reached', () => {
    const edge = 1000 ** 2 / 50e3;
    expect(stopWithJerk(edge * (1 - 1e-9), 1000, 50e3).time).toBeCloseTo(
      stopWithJerk(edge, 1000, 50e3).time,
      9,
    );
  });
});

describe('figures out of range', () => {
  expectNaN((feed, acceleration) => rampTo(feed, acceleration).time, [1, 1]);
  expectNaN((feed, acceleration) => rampTo(feed, acceleration).distance, [1, 1]);
  expectNaN(stoppingDistance, [1, 1, 0.1]);
  expectNaN(feedStoppingWithin, [1, 1, 0.1]);
  expectNaN((feed, acceleration, jerk) => stopWithJerk(feed, acceleration, jerk).time, [1, 1, 1]);
  for (const part of ['peak', 'cruise', 'time'] as const) {
    expectNaN((distance, feed, acceleration) => move(distance, feed, acceleration)[part], [10, 1, 1]);
  }
  it('standing still needs no room, no acceleration never stops', () => {
    expect(stoppingDistance(0, 1, 1)).toBe(0);
    expect(feedStoppingWithin(0.02, 1)).toBeCloseTo(0.2, 12);
    expect(feedStoppingWithin(0.006, 1, 0.01)).toBeCloseTo(0.1, 12);
    expect(feedStoppingWithin(0, 1, 0)).toBe(0);
    expect(feedStoppingWithin(0, 1, 1)).toBe(0);
    expect(stoppingDistance(1, 0)).toBeNaN();
    expect(move(-1, 1, -1).time).toBeNaN();
    expect(move(0, 1, 1)).toMatchObject({ peak: 0, cruise: 0, time: 0 });
    expect(move(1, 0, 1).time).toBeNaN();
  });
});
