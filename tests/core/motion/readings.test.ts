import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  correctedPulses,
  correctedTopSpeed,
  correctReadings,
  fitGain,
  fitLine,
  worstError,
} from '../../../server/core/motion/readings.ts';
import { expectNaN } from './outside.ts';

const asked = fc.uniqueArray(fc.integer({ min: 1000, max: 24_000 }), { minLength: 2, maxLength: 12 });
const gain = fc.double({ min: 0.2, max: 3, noNaN: true });
const offset = fc.integer({ min: -500, max: 500 });

describe('the line of least squares', () => {
  it('finds the line that the readings lie on', () => {
    fc.assert(
      fc.property(asked, gain, offset, (speeds, slope, shift) => {
        const line = fitLine(speeds.map((speed) => ({ asked: speed, seen: slope * speed + shift })));
        expect(line.gain).toBeCloseTo(slope, 6);
        expect(line.offset).toBeCloseTo(shift, 2);
      }),
    );
  });
  it('is not bettered by any line near it', () => {
    const noise = fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 12, maxLength: 12 });
    const nudge = fc.integer({ min: -100, max: 100 }).map((thousandths) => thousandths / 1000);
    fc.assert(
      fc.property(asked, gain, noise, nudge, nudge, (speeds, slope, errors, tilt, shift) => {
        const readings = speeds.map((speed, index) => ({
          asked: speed,
          seen: slope * speed + (errors[index] ?? 0),
        }));
        const squares = (a: number, b: number) =>
          readings.reduce((sum, reading) => sum + (reading.seen - a * reading.asked - b) ** 2, 0);
        const line = fitLine(readings);
        const best = squares(line.gain, line.offset);
        expect(best).toBeLessThanOrEqual(squares(line.gain + tilt, line.offset + 100 * shift) + 1e-3);
        const through = fitGain(readings);
        expect(squares(through, 0)).toBeLessThanOrEqual(squares(through + tilt, 0) + 1e-3);
      }),
    );
  });
  it('of one asked figure goes through zero, however often it was read', () => {
    expect(fitLine([{ asked: 9000, seen: 8420 }])).toEqual({ gain: 8420 / 9000, offset: 0 });
    const often = [8400, 8420, 8440].map((seen) => ({ asked: 0.1, seen }));
    expect(fitLine(often).gain).toBeCloseTo(84_200, 6);
    expect(fitLine(often).offset).toBe(0);
  });
  it('agrees with the textbook sums of Σxy and Σx² (worked by hand: 1,2,3 against 2,4,7)', () => {
    const line = fitLine([
      { asked: 1, seen: 2 },
      { asked: 2, seen: 4 },
      { asked: 3, seen: 7 },
    ]);
    expect(line.gain).toBeCloseTo(2.5, 12);
    expect(line.offset).toBeCloseTo(-2 / 3, 12);
  });
});

describe('corrections', () => {
  it('a spindle that runs at a share of what is asked is right once the corrected top speed is keyed in', () => {
    fc.assert(
      fc.property(gain, (slope) => {
        const reallyTops = slope * 18_000;
        const seen = (keyed: number, speed: number) => (speed / keyed) * reallyTops;
        const readings = [6000, 9000, 15_000].map((speed) => ({ asked: speed, seen: seen(18_000, speed) }));
        const corrected = correctedTopSpeed(18_000, fitGain(readings));
        expect(seen(corrected, 9000)).toBeCloseTo(9000, 6);
      }),
    );
  });
  it('an axis that goes 499.62 mm for 500 mm needs more pulses', () => {
    expect(correctedPulses(320, 499.62 / 500)).toBeCloseTo(320.2434, 4);
  });
  it('take the error of readings on a line away', () => {
    const readings = [6000, 9000].map((speed) => ({ asked: speed, seen: 0.9 * speed + 40 }));
    expect(worstError(readings)).toBeCloseTo(-0.1 + 40 / 9000, 9);
    expect(worstError(correctReadings(readings, fitLine(readings)))).toBeCloseTo(0, 9);
  });
  it('the worst error keeps its sign', () => {
    const low = { asked: 100, seen: 80 };
    const high = { asked: 100, seen: 110 };
    expect(worstError([high, low])).toBeCloseTo(-0.2, 12);
    expect(worstError([{ asked: 0, seen: 3 }, high])).toBeCloseTo(0.1, 12);
  });
});

describe('figures out of range', () => {
  expectNaN(correctedTopSpeed, [18_000, 0.9], [0, -1, Number.NaN]);
  expectNaN(correctedPulses, [320, 0.99], [0, -1, Number.NaN]);
  it('no readings, or none that ask for anything, give NaN', () => {
    expect(fitLine([]).gain).toBeNaN();
    expect(fitGain([])).toBeNaN();
    expect(worstError([])).toBeNaN();
    expect(fitLine([{ asked: 0, seen: 3 }]).gain).toBeNaN();
    expect(fitGain([{ asked: 0, seen: 3 }])).toBeNaN();
    expect(worstError([{ asked: 0, seen: 3 }])).toBeNaN();
  });
  it('one NaN among the readings is not lost', () => {
    const readings = [
      { asked: 1, seen: 1 },
      { asked: 2, seen: Number.NaN },
      { asked: 3, seen: 3 },
    ];
    expect(fitLine(readings).gain).toBeNaN();
    expect(fitGain(readings)).toBeNaN();
    expect(worstError(readings)).toBeNaN();
    expect(correctReadings([{ asked: 1, seen: 1 }], { gain: 0, offset: 0 })[0]?.seen).toBeNaN();
  });
});
