import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { motorSpeed } from '../../../server/core/motion/feed.ts';
import { barInertia, discInertia, inertiaAtMotor, massInertia } from '../../../server/core/motion/inertia.ts';
import { expectNaN } from './outside.ts';

const some = fc.double({ min: 1e-3, max: 1e3, noNaN: true });

describe('laws', () => {
  it('motion energy is kept: half m v² is half J ω² at the motor', () => {
    fc.assert(
      fc.property(some, some, some, some, (mass, travel, gearing, feed) => {
        const atMotor = inertiaAtMotor(0, massInertia(mass, travel), gearing);
        const turning = atMotor * motorSpeed(feed, travel, gearing) ** 2;
        expect(turning / (mass * feed ** 2)).toBeCloseTo(1, 9);
      }),
    );
  });
  it('a bar is a disc of its own mass', () => {
    fc.assert(
      fc.property(some, some, some, (density, length, diameter) => {
        const mass = (density * length * Math.PI * diameter ** 2) / 4;
        expect(barInertia(density, length, diameter) / discInertia(mass, diameter)).toBeCloseTo(1, 9);
      }),
    );
  });
  it('twice the diameter makes sixteen times the inertia', () => {
    expect(barInertia(7800, 0.8, 0.032) / barInertia(7800, 0.8, 0.016)).toBeCloseTo(16, 12);
  });
  it('a gearing of 3 leaves a ninth of the driven inertia', () => {
    expect(inertiaAtMotor(1e-5, 9e-5, 3)).toBeCloseTo(2e-5, 15);
  });
});

describe('figures out of range', () => {
  expectNaN(barInertia, [7800, 1, 0.02], [0, -1, Number.NaN]);
  expectNaN(discInertia, [1, 0.05]);
  expectNaN(massInertia, [10, 0.005]);
  expectNaN(inertiaAtMotor, [1e-5, 1e-4, 1]);
  it('no mass has no inertia, no travel per turn is no carrier', () => {
    expect(massInertia(0, 0.005)).toBe(0);
    expect(massInertia(10, 0)).toBeNaN();
    expect(inertiaAtMotor(1e-5, 1e-4, 0)).toBeNaN();
  });
});
