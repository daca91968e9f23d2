import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  margin,
  marginShare,
  NO_SKEW,
  offTimeAt,
  period,
  skew,
  topPulseRate,
} from '../../../server/core/motion/timing.ts';

const US = 1e-6;
const time = fc.double({ min: 1e-8, max: 1e-3, noNaN: true });
const delay = fc.integer({ min: 0, max: 1000 }).map((hundredths) => hundredths * 1e-8);
const rate = fc.double({ min: 1e3, max: 1e7, noNaN: true });

describe('top pulse rate', () => {
  it('is held by the longer of both on-times and both off-times', () => {
    const drive = { leastOn: 2.5 * US, leastOff: 2.5 * US };
    expect(topPulseRate({ onTime: 1 * US }, drive)).toBeCloseTo(200e3, 6);
    expect(topPulseRate({ onTime: 7.5 * US, offTime: 2 * US }, drive)).toBeCloseTo(100e3, 6);
  });
  it('never exceeds the top rate of either end', () => {
    const drive = { leastOn: 1 * US, leastOff: 1 * US };
    expect(topPulseRate({ topRate: 100e3 }, drive)).toBe(100e3);
    expect(topPulseRate({}, { ...drive, topRate: 40e3 })).toBe(40e3);
  });
  it('is unlimited when nothing is said', () => {
    expect(topPulseRate({}, {})).toBe(Number.POSITIVE_INFINITY);
  });
  it('leaves no margin below zero at that rate', () => {
    fc.assert(
      fc.property(
        time,
        time,
        time,
        rate,
        delay,
        delay,
        (onTime, leastOn, leastOff, topRate, turnOn, turnOff) => {
          const lost = skew({ turnOn, turnOff }, { turnOn, turnOff });
          const top = topPulseRate({ onTime, topRate }, { leastOn, leastOff }, lost);
          const given = Math.max(onTime, leastOn + lost.on);
          const rounding = 1e-12 * period(top);
          expect(margin(given, leastOn, lost.on)).toBeGreaterThanOrEqual(-rounding);
          expect(margin(Math.max(0, offTimeAt(top, given)), leastOff, lost.off)).toBeGreaterThanOrEqual(
            -rounding,
          );
        },
      ),
    );
  });
  it('scales: times half as long allow twice the rate', () => {
    fc.assert(
      fc.property(time, time, time, time, (onTime, offTime, leastOn, leastOff) => {
        const slow = topPulseRate({ onTime, offTime }, { leastOn, leastOff });
        const fast = topPulseRate(
          { onTime: onTime / 2, offTime: offTime / 2 },
          { leastOn: leastOn / 2, leastOff: leastOff / 2 },
        );
        expect(fast / slow).toBeCloseTo(2, 12);
      }),
    );
  });
  it('is never raised by skew', () => {
    fc.assert(
      fc.property(time, time, delay, delay, delay, delay, (leastOn, leastOff, a, b, c, d) => {
        const lost = skew({ turnOn: a, turnOff: b }, { turnOn: c, turnOff: d });
        const drive = { leastOn, leastOff };
        expect(topPulseRate({}, drive, lost)).toBeLessThanOrEqual(topPulseRate({}, drive));
      }),
    );
  });
});

describe('skew', () => {
  it('is nothing when inputs turn on and off equally fast', () => {
    const even = { turnOn: 0.4 * US, turnOff: 0.4 * US };
    expect(skew(even, even)).toEqual(NO_SKEW);
  });
  it('of a slow turn-off costs the pause and the lead', () => {
    const slow = { turnOn: 0.2 * US, turnOff: 0.9 * US };
    const lost = skew(slow, slow);
    expect(lost.on).toBe(0);
    expect(lost.off).toBeCloseTo(0.7 * US, 15);
    expect(lost.lead).toBeCloseTo(0.7 * US, 15);
    expect(lost.hold).toBe(0);
  });
  it('of a slow turn-on costs the pulse and the hold', () => {
    const slow = { turnOn: 0.9 * US, turnOff: 0.2 * US };
    const lost = skew(slow, slow);
    expect(lost.on).toBeCloseTo(0.7 * US, 15);
    expect(lost.off).toBe(0);
    expect(lost.lead).toBe(0);
    expect(lost.hold).toBeCloseTo(0.7 * US, 15);
  });
  // The edges are laid on a time line here, and the times between them read off, as a scope at the drive would.
  it('agrees with the edges that arrive at the drive, in the worst direction of change', () => {
    const given = 50 * US;
    fc.assert(
      fc.property(delay, delay, delay, delay, (a, b, c, d) => {
        const lost = skew({ turnOn: a, turnOff: b }, { turnOn: c, turnOff: d });
        const on = given + b - a;
        const off = given + a - b;
        const lead = Math.min(given + a - c, given + a - d);
        const hold = Math.min(given + c - a, given + d - a);
        expect(given - lost.on).toBeCloseTo(Math.min(given, on), 15);
        expect(given - lost.off).toBeCloseTo(Math.min(given, off), 15);
        expect(given - lost.lead).toBeCloseTo(Math.min(given, lead), 15);
        expect(given - lost.hold).toBeCloseTo(Math.min(given, hold), 15);
      }),
    );
  });
});

describe('margins', () => {
  it('are what is given, less the skew, less what is asked', () => {
    expect(margin(5 * US, 2 * US, 0.5 * US)).toBeCloseTo(2.5 * US, 15);
    expect(margin(1 * US, 2 * US)).toBeCloseTo(-1 * US, 15);
    expect(marginShare(0.5 * US, 2.5 * US)).toBeCloseTo(0.2, 12);
  });
  it('have no share of nothing', () => {
    expect(marginShare(1 * US, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(marginShare(1 * US, -0)).toBe(Number.POSITIVE_INFINITY);
    expect(marginShare(0, 0)).toBeNaN();
  });
  it('an on-time longer than the period leaves an off-time below zero', () => {
    expect(offTimeAt(200e3, 8 * US)).toBeCloseTo(-3 * US, 15);
  });
});

describe('figures out of range', () => {
  it.each([-1, Number.NaN])('%d gives NaN wherever it stands', (bad) => {
    const even = { turnOn: 0, turnOff: 0 };
    const results = [
      period(bad),
      period(0),
      offTimeAt(bad, 0),
      offTimeAt(1, bad),
      margin(bad, 0),
      margin(0, bad),
      margin(0, 0, bad),
      marginShare(1, bad),
      topPulseRate({ onTime: bad }, {}),
      topPulseRate({ offTime: bad }, {}),
      topPulseRate({ topRate: bad }, {}),
      topPulseRate({}, { leastOn: bad }),
      topPulseRate({}, { leastOff: bad }),
      topPulseRate({}, { topRate: bad }),
      topPulseRate({}, { leastOn: 1 }, { ...NO_SKEW, on: bad }),
      topPulseRate({}, { leastOff: 1 }, { ...NO_SKEW, off: bad }),
      skew({ turnOn: bad, turnOff: 0 }, even).on,
      skew({ turnOn: 0, turnOff: bad }, even).off,
      skew(even, { turnOn: bad, turnOff: 0 }).lead,
      skew(even, { turnOn: 0, turnOff: bad }).hold,
    ];
    expect(results.filter((result) => !Number.isNaN(result))).toEqual([]);
  });
});
