import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cornerSpeed,
  currentShare,
  leastStepTime,
  timeConstant,
  timeToCurrentShare,
  usualSupplyCurrent,
  usualTopVoltage,
} from '../../../server/core/motion/winding.ts';
import { expectNaN } from './outside.ts';

const some = fc.double({ min: 1e-3, max: 1e3, noNaN: true });

describe('laws', () => {
  it('a step at the corner speed takes the least step time', () => {
    fc.assert(
      fc.property(some, some, some, fc.constantFrom(48, 200, 400), (voltage, inductance, current, steps) => {
        const turn = (2 * Math.PI) / cornerSpeed(voltage, inductance, current, steps);
        expect(turn / steps / leastStepTime(voltage, inductance, current)).toBeCloseTo(1, 9);
      }),
    );
  });
  it('twice the voltage doubles the corner speed, twice the inductance halves it', () => {
    fc.assert(
      fc.property(some, some, some, (voltage, inductance, current) => {
        const plain = cornerSpeed(voltage, inductance, current, 200);
        expect(cornerSpeed(2 * voltage, inductance, current, 200) / plain).toBeCloseTo(2, 9);
        expect(cornerSpeed(voltage, 2 * inductance, current, 200) / plain).toBeCloseTo(0.5, 9);
      }),
    );
  });
  it('the time to a share of the current is when that share is reached', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999 }), some, (thousandths, constant) => {
        const share = thousandths / 1000;
        expect(currentShare(timeToCurrentShare(share, constant), constant)).toBeCloseTo(share, 12);
      }),
    );
  });
  it('four times the inductance doubles the usual voltage', () => {
    expect(usualTopVoltage(4e-3) / usualTopVoltage(1e-3)).toBeCloseTo(2, 12);
  });
});

describe('figures out of range', () => {
  expectNaN(timeConstant, [1e-3, 1], [0, -1, Number.NaN]);
  expectNaN(currentShare, [1, 1]);
  expectNaN(timeToCurrentShare, [0.5, 1]);
  expectNaN(leastStepTime, [48, 1e-3, 3], [0, -1, Number.NaN]);
  expectNaN(cornerSpeed, [48, 1e-3, 3, 200], [0, -1, Number.NaN]);
  expectNaN(usualTopVoltage, [1e-3], [0, -1, Number.NaN]);
  it('the whole of a current is never reached, more than the whole is no share', () => {
    expect(timeToCurrentShare(1, 1)).toBe(Number.POSITIVE_INFINITY);
    expect(timeToCurrentShare(1.1, 1)).toBeNaN();
  });
  it('no motors draw nothing, a bad one spoils the sum', () => {
    expect(usualSupplyCurrent([])).toBe(0);
    expect(usualSupplyCurrent([3, -1])).toBeNaN();
    expect(usualSupplyCurrent([3, Number.NaN])).toBeNaN();
  });
});
