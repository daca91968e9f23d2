import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  channelFrequency,
  countsPerDetent,
  countsPerTurn,
  feedOfSpin,
  stepPerDetent,
} from '../../../server/core/motion/handwheel.ts';
import { expectNaN } from './outside.ts';

const TURN = 2 * Math.PI;

describe('a handwheel (common practice, no source)', () => {
  it('of 100 cycles and 100 clicks makes four counts a click', () => {
    expect(countsPerDetent(countsPerTurn(100), 100)).toBe(4);
  });
  it('moves 0.1 mm a click at ×100 of 0.001 mm', () => {
    expect(stepPerDetent(0.001e-3, 100)).toBeCloseTo(0.1e-3, 15);
  });
  it('spun twice a second at ×100 asks for 1200 mm/min', () => {
    expect(feedOfSpin(2 * TURN, 100, 0.001e-3, 100) * 60e3).toBeCloseTo(1200, 9);
  });
});

describe('laws', () => {
  const some = fc.double({ min: 1e-3, max: 1e3, noNaN: true });

  it('the feed is the clicks a second times the step of each', () => {
    fc.assert(
      fc.property(
        some,
        fc.constantFrom(25, 60, 100),
        some,
        fc.constantFrom(1, 10, 100),
        (spin, clicks, step, by) => {
          const clicksPerSecond = channelFrequency(clicks, spin);
          expect(
            feedOfSpin(spin, clicks, step, by) / (clicksPerSecond * stepPerDetent(step, by)),
          ).toBeCloseTo(1, 12);
        },
      ),
    );
  });
});

describe('figures out of range', () => {
  expectNaN(countsPerTurn, [100], [0, -1, Number.NaN]);
  expectNaN(countsPerDetent, [400, 100], [0, -1, Number.NaN]);
  expectNaN(stepPerDetent, [1e-6, 10], [0, -1, Number.NaN]);
  expectNaN(channelFrequency, [100, 1]);
  expectNaN(feedOfSpin, [1, 100, 1e-6, 10]);
  it('a wheel at rest asks for nothing', () => {
    expect(feedOfSpin(0, 100, 1e-6, 10)).toBe(0);
  });
});
