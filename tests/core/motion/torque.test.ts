import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { motorSpeed } from '../../../server/core/motion/feed.ts';
import { inertiaAtMotor, massInertia } from '../../../server/core/motion/inertia.ts';
import {
  accelerationTorque,
  loadTorque,
  microstepTorque,
  shaftPower,
  standstillTorque,
  thrust,
  torqueAtSpeed,
  torqueMargin,
  usableSpeed,
} from '../../../server/core/motion/torque.ts';
import { expectNaN } from './outside.ts';

const some = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
const share = fc.double({ min: 0.05, max: 1, noNaN: true });
const incline = fc.integer({ min: 0, max: 90 }).map((degrees) => (degrees * Math.PI) / 180);

describe('torque needed and its margin', () => {
  it('a heavier mass never raises the torque margin', () => {
    fc.assert(
      fc.property(
        some,
        some,
        incline,
        share,
        some,
        some,
        (mass, more, slope, efficiency, travel, acceleration) => {
          const marginFor = (moved: number) => {
            const inertia = inertiaAtMotor(1e-5, massInertia(moved, travel), 1);
            const speedingUp = accelerationTorque(inertia, motorSpeed(acceleration, travel, 1));
            return torqueMargin(
              2,
              loadTorque(thrust(moved, slope, 0.02, 10), travel, efficiency, 1) + speedingUp,
            );
          };
          expect(marginFor(mass + more)).toBeLessThanOrEqual(marginFor(mass));
        },
      ),
    );
  });
  it('an upright axis carries its weight, a level one only rubs (textbook, inclined plane)', () => {
    expect(thrust(10, Math.PI / 2, 0.1, 0)).toBeCloseTo(98.0665, 9);
    expect(thrust(10, 0, 0.1, 0)).toBeCloseTo(9.80665, 9);
    expect(thrust(10, 0, 0, 150)).toBe(150);
    expect(thrust(10, -Math.PI / 2, 0, 0)).toBeCloseTo(-98.0665, 9);
  });
  it('work is kept: the torque over one motor turn, less losses, is the thrust over its travel', () => {
    fc.assert(
      fc.property(some, some, share, some, (force, travel, efficiency, gearing) => {
        const given = loadTorque(force, travel, efficiency, gearing) * 2 * Math.PI * efficiency;
        expect(given / ((force * travel) / gearing)).toBeCloseTo(1, 9);
      }),
    );
  });
  it('shaft power is the thrust times the feed when nothing is lost', () => {
    fc.assert(
      fc.property(some, some, some, some, (force, travel, gearing, feed) => {
        const power = shaftPower(loadTorque(force, travel, 1, gearing), motorSpeed(feed, travel, gearing));
        expect(power / (force * feed)).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe('torque available', () => {
  it('is flat to the corner speed and a half at twice that speed', () => {
    expect(torqueAtSpeed(2, 100, 0)).toBe(2);
    expect(torqueAtSpeed(2, 100, 100)).toBe(2);
    expect(torqueAtSpeed(2, 100, 200)).toBe(1);
  });
  it('goes with the current up to the rated one and no further', () => {
    expect(standstillTorque(2, 1.5, 3)).toBe(1);
    expect(standstillTorque(2, 3, 3)).toBe(2);
    expect(standstillTorque(2, 6, 3)).toBe(2);
    expect(standstillTorque(2, 0, 3)).toBe(0);
  });
  it('never rises with the speed', () => {
    fc.assert(
      fc.property(some, some, some, some, (standstill, corner, speed, faster) => {
        const later = torqueAtSpeed(standstill, corner, speed + faster);
        expect(later).toBeLessThanOrEqual(torqueAtSpeed(standstill, corner, speed));
      }),
    );
  });
});

describe('usable speed', () => {
  it('is where the motor has exactly so many times the torque needed, or none', () => {
    fc.assert(
      fc.property(
        some,
        some,
        some,
        fc.double({ min: 1, max: 4, noNaN: true }),
        (standstill, corner, needed, factor) => {
          const speed = usableSpeed(standstill, corner, needed, factor);
          if (standstill < factor * needed) expect(speed).toBe(0);
          else
            expect(torqueMargin(torqueAtSpeed(standstill, corner, speed), needed) / factor).toBeCloseTo(1, 9);
        },
      ),
    );
  });
  // Halving an interval needs no formula, so it can stand against the closed form.
  it('agrees with a search along the torque curve', () => {
    fc.assert(
      fc.property(some, some, share, (standstill, corner, part) => {
        const needed = (standstill / 2) * part;
        let low = 0;
        let high = (1e3 * corner) / part;
        for (let halving = 0; halving < 80; halving++) {
          const middle = (low + high) / 2;
          if (torqueAtSpeed(standstill, corner, middle) >= 2 * needed) low = middle;
          else high = middle;
        }
        expect(usableSpeed(standstill, corner, needed) / low).toBeCloseTo(1, 9);
      }),
    );
  });
  it('has an end at both extremes', () => {
    expect(usableSpeed(1, 100, 0.5)).toBe(100);
    expect(usableSpeed(1, 100, 0.6)).toBe(0);
    expect(usableSpeed(1, 100, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(usableSpeed(0, 100, 0)).toBeNaN();
  });
});

describe('microsteps', () => {
  it('finer ones never hold more', () => {
    const count = fc.integer({ min: 1, max: 512 });
    fc.assert(
      fc.property(some, count, count, (holding, a, b) => {
        const finer = microstepTorque(holding, Math.max(a, b));
        expect(finer).toBeLessThanOrEqual(microstepTorque(holding, Math.min(a, b)));
      }),
    );
  });
  it('less than one is no division', () => {
    expect(microstepTorque(2, 0)).toBeNaN();
    expect(microstepTorque(2, 0.5)).toBeNaN();
  });
});

describe('figures out of range', () => {
  it('a margin on nothing is endless, and of nothing on nothing not a number', () => {
    expect(torqueMargin(1, 0)).toBe(Number.POSITIVE_INFINITY);
    expect(torqueMargin(1, -0)).toBe(Number.POSITIVE_INFINITY);
    expect(torqueMargin(0, 0)).toBeNaN();
    expect(usableSpeed(1, 100, -0)).toBe(Number.POSITIVE_INFINITY);
    expect(torqueAtSpeed(2, 100, -0)).toBe(2);
  });
  it('a thrust of the load itself comes through with its sign', () => {
    expect(loadTorque(-100, 0.005, 1, 1)).toBeLessThan(0);
    expect(thrust(10, Number.NaN, 0, 0)).toBeNaN();
  });
  expectNaN((mass, friction, force) => thrust(mass, 0, friction, force), [10, 0.1, 5]);
  expectNaN(
    (travel, efficiency, gearing) => loadTorque(5, travel, efficiency, gearing),
    [0.005, 0.9, 1],
    [0, -1, Number.NaN],
  );
  expectNaN(accelerationTorque, [1e-5, 100]);
  expectNaN(standstillTorque, [2, 3, 3]);
  expectNaN(torqueAtSpeed, [2, 100, 50]);
  expectNaN(usableSpeed, [2, 100, 0.5, 2]);
  expectNaN(torqueMargin, [2, 1]);
  expectNaN(microstepTorque, [2, 8]);
});
