import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  beltTravel,
  pulsesPerTravel,
  pulsesPerTurn,
  rackTravel,
  resolution,
  screwLead,
  stepsPerTurn,
  wormTravel,
} from '../../../server/core/motion/pulses.ts';

const MM = 1e-3;
const INCH = 25.4 * MM; // exact: international inch, NIST SP 811
const DEG = Math.PI / 180;

describe('facts of the trade (common practice, no source)', () => {
  it('a 1.8 deg motor makes 200 steps, exactly', () => {
    expect(stepsPerTurn(1.8 * DEG)).toBe(200);
  });
  it.each([
    [0.9, 400],
    [3.6, 100],
    [7.5, 48],
    [15, 24],
  ])('a %d deg motor makes %d steps, exactly', (angle, steps) => {
    expect(stepsPerTurn(angle * DEG)).toBe(steps);
  });
  it('an angle that does not go into a turn is not rounded to one that does', () => {
    expect(stepsPerTurn(1.7 * DEG)).toBeCloseTo(360 / 1.7, 9);
  });
  it('8 microsteps of 200 steps make 1600 pulses a turn', () => {
    expect(pulsesPerTurn(200, 8)).toBe(1600);
  });
  it('a quarter-inch lead at 1600 pulses a turn makes 251.969 pulses per mm', () => {
    expect(pulsesPerTravel(1600, 1, 0.25 * INCH) * MM).toBeCloseTo(251.969, 3);
  });
  it('an eighth-inch lead at 1600 pulses a turn makes 503.937 pulses per mm', () => {
    expect(pulsesPerTravel(1600, 1, 0.125 * INCH) * MM).toBeCloseTo(503.937, 3);
  });
  it('a four-start screw of 2 mm pitch has a lead of 8 mm', () => {
    expect(screwLead(2 * MM, 4)).toBe(8 * MM);
  });
});

describe('laws', () => {
  const some = fc.double({ min: 1e-6, max: 1e6, noNaN: true });

  it('travel × pulses per travel is the pulses of that travel, for every carrier', () => {
    fc.assert(
      fc.property(some, some, some, (pulses, gearing, travel) => {
        expect(pulsesPerTravel(pulses, gearing, travel) * travel).toBeCloseTo(pulses * gearing, -6);
        expect((pulsesPerTravel(pulses, gearing, travel) * travel) / (pulses * gearing)).toBeCloseTo(1, 12);
      }),
    );
  });
  it('twice the microsteps halve the resolution', () => {
    fc.assert(
      fc.property(some, some, some, (pulses, gearing, travel) => {
        const coarse = resolution(pulsesPerTravel(pulses, gearing, travel));
        const fine = resolution(pulsesPerTravel(2 * pulses, gearing, travel));
        expect(fine / coarse).toBeCloseTo(0.5, 12);
      }),
    );
  });
  it('a rack is a belt whose pitch is π × module', () => {
    fc.assert(
      fc.property(some, fc.integer({ min: 1, max: 200 }), (module, teeth) => {
        expect(rackTravel(module, teeth) / beltTravel(Math.PI * module, teeth)).toBeCloseTo(1, 12);
      }),
    );
  });
  it('a worm wheel is back after as many worm turns as its ratio', () => {
    fc.assert(
      fc.property(some, (ratio) => {
        expect((wormTravel(ratio) * ratio) / (2 * Math.PI)).toBeCloseTo(1, 12);
      }),
    );
  });
});

describe('figures out of range', () => {
  it.each([0, -1, Number.NaN])('%d gives NaN wherever it stands', (bad) => {
    const results = [
      stepsPerTurn(bad),
      pulsesPerTurn(bad, 8),
      pulsesPerTurn(200, bad),
      screwLead(bad, 1),
      screwLead(0.005, bad),
      beltTravel(bad, 20),
      beltTravel(0.003, bad),
      rackTravel(bad, 20),
      rackTravel(0.001, bad),
      wormTravel(bad),
      pulsesPerTravel(bad, 1, 0.005),
      pulsesPerTravel(1600, bad, 0.005),
      pulsesPerTravel(1600, 1, bad),
      resolution(bad),
    ];
    expect(results.filter((result) => !Number.isNaN(result))).toEqual([]);
  });
});
