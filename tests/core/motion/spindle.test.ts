import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loadingError, rescale, stepOfBits } from '../../../server/core/motion/analog.ts';
import {
  frequencyAtSpeed,
  rampTime,
  shaftSpeed,
  slip,
  synchronousSpeed,
  waitMargin,
} from '../../../server/core/motion/spindle.ts';
import { expectNaN } from './outside.ts';

const some = fc.double({ min: 1e-3, max: 1e4, noNaN: true });
const poles = fc.constantFrom(2, 4, 6, 8);

describe('motor', () => {
  it('the frequency of a synchronous speed is the one that made it', () => {
    fc.assert(
      fc.property(some, poles, (frequency, count) => {
        expect(frequencyAtSpeed(synchronousSpeed(frequency, count), count) / frequency).toBeCloseTo(1, 12);
      }),
    );
  });
  it('a shaft with the slip of a shaft speed has that speed', () => {
    fc.assert(
      fc.property(some, some, (synchronous, shaft) => {
        expect(shaftSpeed(synchronous, slip(synchronous, shaft))).toBeCloseTo(shaft, 6);
      }),
    );
  });
});

describe('analog', () => {
  const finite = fc.integer({ min: -1000, max: 1000 });

  it('a figure carried to another scale and back is the same', () => {
    fc.assert(
      fc.property(finite, finite, fc.double({ min: 1, max: 1e3, noNaN: true }), (value, from, length) => {
        const speed = { from, to: from + length };
        const volts = { from: 0, to: 10 };
        expect(rescale(rescale(value, speed, volts), volts, speed)).toBeCloseTo(value, 6);
      }),
    );
  });
  it('0..5 V into 0..10 V asks for half the speed', () => {
    const top = { from: 0, to: 18_000 };
    const volts = rescale(18_000, top, { from: 0, to: 5 });
    expect(rescale(volts, { from: 0, to: 10 }, top)).toBe(9000);
  });
  it('a scale may run backwards, but not stand still', () => {
    expect(rescale(1, { from: 10, to: 0 }, { from: 0, to: 100 })).toBe(90);
    expect(rescale(1, { from: 5, to: 5 }, { from: 0, to: 100 })).toBeNaN();
  });
  it('100 ohm into 10 kohm loses a hundred-and-first (textbook, voltage divider)', () => {
    expect(loadingError(100, 10e3)).toBeCloseTo(-1 / 101, 12);
    expect(loadingError(100, Number.POSITIVE_INFINITY)).toBe(-0);
    expect(loadingError(0, 10e3)).toBe(-0);
  });
  it('one more bit halves the step', () => {
    expect(stepOfBits(18_000, 11) / stepOfBits(18_000, 10)).toBe(0.5);
    expect(stepOfBits(10, 1, 'steps')).toBe(10);
  });
});

describe('waiting', () => {
  it('half the change takes half the ramp, up or down', () => {
    expect(rampTime(8, 0, 200, 400)).toBe(4);
    expect(rampTime(8, 200, 0, 400)).toBe(4);
  });
  it('is short by what the ramp takes longer', () => {
    expect(waitMargin(3, rampTime(8, 0, 300, 400))).toBe(-3);
  });
});

describe('figures out of range', () => {
  expectNaN(synchronousSpeed, [50, 4]);
  expectNaN(frequencyAtSpeed, [100, 4]);
  expectNaN((synchronous) => slip(synchronous, 1), [100], [0, -1, Number.NaN]);
  expectNaN((synchronous) => shaftSpeed(synchronous, 0.05), [100]);
  expectNaN(rampTime, [8, 0, 200, 400]);
  expectNaN(waitMargin, [3, 4]);
  expectNaN(loadingError, [100, 10e3]);
  expectNaN(stepOfBits as (length: number, bits: number) => number, [10, 12]);
  it('no poles, no reference and no whole bits give NaN', () => {
    expect(synchronousSpeed(50, 0)).toBeNaN();
    expect(rampTime(8, 0, 200, 0)).toBeNaN();
    expect(stepOfBits(10, 0)).toBeNaN();
    expect(stepOfBits(10, 10.5)).toBeNaN();
    expect(stepOfBits(10, 53)).toBeNaN();
  });
});
