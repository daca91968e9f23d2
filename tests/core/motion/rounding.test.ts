import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  raiseToStep,
  roundingDrift,
  roundingError,
  roundToDecimals,
  roundToStep,
} from '../../../server/core/motion/rounding.ts';

const some = fc.double({ min: 1e-3, max: 1e6, noNaN: true });

describe('rounding error', () => {
  it('of 252 keyed in for 1600 / 6.35 pulses per mm is 125 ppm, which is 62.5 µm in 500 mm', () => {
    const exact = 1600 / 6.35e-3;
    expect(roundingError(252e3, exact) * 1e6).toBeCloseTo(125, 6);
    expect(roundingDrift(252e3, exact, 0.5) * 1e6).toBeCloseTo(62.5, 6);
  });
  it('has no unit: both figures scaled alike give the same error', () => {
    fc.assert(
      fc.property(some, some, some, (keyed, exact, scale) => {
        const error = roundingError(keyed, exact);
        expect(roundingError(keyed * scale, exact * scale)).toBeCloseTo(
          error,
          5 - Math.log10(1 + Math.abs(error)),
        );
      }),
    );
  });
  it('of so many decimals is at most half a unit of the last', () => {
    fc.assert(
      fc.property(some, fc.integer({ min: 0, max: 6 }), (exact, decimals) => {
        const keyed = roundToDecimals(exact, decimals);
        expect(Math.abs(keyed - exact)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-9);
      }),
    );
  });
  it('grows with the travel', () => {
    expect(roundingDrift(252, 251, 2)).toBeCloseTo(2 * roundingDrift(252, 251, 1), 15);
  });
});

describe('rounding', () => {
  it('to decimals', () => {
    expect(roundToDecimals(1600 / 6.35, 3)).toBe(251.969);
    expect(roundToDecimals(-0.4, 0)).toBe(-0);
    expect(roundToDecimals(320, 0)).toBe(320);
    expect(roundToDecimals(0.5, 15)).toBe(0.5);
  });
  it('to a step', () => {
    expect(roundToStep(1049, 100)).toBe(1000);
    expect(raiseToStep(1001, 100)).toBe(1100);
    expect(raiseToStep(1000, 100)).toBe(1000);
  });
  it('up to a step does not take binary noise for a need', () => {
    expect(raiseToStep(0.3e-6, 0.1e-6)).toBeCloseTo(0.3e-6, 15);
    expect(raiseToStep(700e-9, 100e-9)).toBeCloseTo(700e-9, 15);
  });
  it('of a figure below zero goes towards plus', () => {
    expect(raiseToStep(-1001, 100)).toBe(-1000);
    expect(raiseToStep(-0.3e-6, 0.1e-6)).toBeCloseTo(-0.3e-6, 15);
    expect(raiseToStep(-150, 100)).toBe(-100);
  });
  it('up to a step is never below the value, and less than a step above it', () => {
    fc.assert(
      fc.property(some, fc.double({ min: 1e-2, max: 1e3, noNaN: true }), (value, step) => {
        const raised = raiseToStep(value, step);
        expect(raised).toBeGreaterThanOrEqual(value * (1 - 1e-9));
        expect(raised - value).toBeLessThanOrEqual(step * (1 + 1e-9));
      }),
    );
  });
});

describe('figures out of range', () => {
  it.each([0, -1, Number.NaN])('%d gives NaN wherever it stands', (bad) => {
    const results = [
      roundingError(bad, 1),
      roundingError(1, bad),
      roundingDrift(bad, 1, 1),
      roundingDrift(1, bad, 1),
      roundToStep(1, bad),
      raiseToStep(1, bad),
    ];
    expect(results.filter((result) => !Number.isNaN(result))).toEqual([]);
  });
  it('what is not finite or not a count of decimals gives NaN', () => {
    expect(roundToDecimals(Number.POSITIVE_INFINITY, 3)).toBeNaN();
    expect(roundToDecimals(1, -1)).toBeNaN();
    expect(roundToDecimals(1, 1.5)).toBeNaN();
    expect(roundToDecimals(1, 16)).toBeNaN();
    expect(roundToStep(Number.POSITIVE_INFINITY, 1)).toBeNaN();
    expect(roundingDrift(1, 1, -1)).toBeNaN();
  });
});
