import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  collarTorque,
  type Ends,
  leadAngle,
  loweringTorque,
  type Material,
  raisingTorque,
  STEEL,
  screwBucklingLoad,
  screwCriticalSpeed,
  screwEfficiency,
  screwStressLoad,
} from '../../../server/core/motion/screw.ts';
import { expectNaN } from './outside.ts';

const BY_STIFFNESS: readonly Ends[] = ['fixed-free', 'supported-supported', 'fixed-supported', 'fixed-fixed'];
const ends = fc.constantFrom(...BY_STIFFNESS);
const size = fc.double({ min: 1e-3, max: 1, noNaN: true });

describe('critical speed and buckling', () => {
  it('twice the length quarters both', () => {
    fc.assert(
      fc.property(size, size, ends, (root, length, held) => {
        const speed = screwCriticalSpeed(root, 2 * length, held) / screwCriticalSpeed(root, length, held);
        const load = screwBucklingLoad(root, 2 * length, held) / screwBucklingLoad(root, length, held);
        expect(speed).toBeCloseTo(0.25, 12);
        expect(load).toBeCloseTo(0.25, 12);
      }),
    );
  });
  it('twice the root doubles the speed and makes sixteen times the load', () => {
    fc.assert(
      fc.property(size, size, ends, (root, length, held) => {
        const speed = screwCriticalSpeed(2 * root, length, held) / screwCriticalSpeed(root, length, held);
        const load = screwBucklingLoad(2 * root, length, held) / screwBucklingLoad(root, length, held);
        expect(speed).toBeCloseTo(2, 12);
        expect(load).toBeCloseTo(16, 9);
      }),
    );
  });
  it('ends that hold better raise both', () => {
    const speeds = BY_STIFFNESS.map((held) => screwCriticalSpeed(0.013, 0.82, held));
    const loads = BY_STIFFNESS.map((held) => screwBucklingLoad(0.013, 0.82, held));
    expect(speeds).toEqual([...speeds].sort((a, b) => a - b));
    expect(loads).toEqual([...loads].sort((a, b) => a - b));
    expect(new Set(speeds).size).toBe(4);
    expect(new Set(loads).size).toBe(4);
  });
  it('a short screw is limited by stress, a long one by buckling', () => {
    expect(screwBucklingLoad(0.013, 0.1, 'fixed-supported')).toBeGreaterThan(screwStressLoad(0.013));
    expect(screwBucklingLoad(0.013, 0.82, 'fixed-supported')).toBeLessThan(screwStressLoad(0.013));
  });
});

const thread = { meanDiameter: 0.03, lead: 0.008, friction: 0.08, halfAngle: 0 };

describe('a sliding thread', () => {
  it('without friction takes what the lead alone takes, up and down', () => {
    const smooth = { ...thread, friction: 0 };
    expect(raisingTorque(1000, smooth)).toBeCloseTo((1000 * 0.008) / (2 * Math.PI), 12);
    expect(loweringTorque(1000, smooth)).toBeCloseTo((-1000 * 0.008) / (2 * Math.PI), 12);
    expect(screwEfficiency(1000, 0.008, raisingTorque(1000, smooth))).toBeCloseTo(1, 12);
  });
  it('holds by itself once friction reaches the slope of the lead angle (textbook, self-locking)', () => {
    const locking = { ...thread, friction: Math.tan(leadAngle(thread.lead, thread.meanDiameter)) };
    expect(loweringTorque(1000, locking)).toBeCloseTo(0, 9);
    expect(loweringTorque(1000, { ...locking, friction: locking.friction * 1.1 })).toBeGreaterThan(0);
    expect(loweringTorque(1000, { ...locking, friction: locking.friction * 0.9 })).toBeLessThan(0);
  });
  it('jams when friction and lead are too great', () => {
    expect(raisingTorque(1000, { ...thread, lead: 0.2, friction: 0.6 })).toBe(Number.POSITIVE_INFINITY);
  });
});

describe('figures out of range', () => {
  expectNaN(
    (root, length) => screwCriticalSpeed(root, length, 'fixed-fixed'),
    [0.013, 0.8],
    [0, -1, Number.NaN],
  );
  expectNaN(
    (root, length) => screwBucklingLoad(root, length, 'fixed-fixed'),
    [0.013, 0.8],
    [0, -1, Number.NaN],
  );
  expectNaN((root) => screwStressLoad(root), [0.013], [0, -1, Number.NaN]);
  const bad = [0, -1, Number.NaN];
  const speedOf = (material: Partial<Material>) =>
    screwCriticalSpeed(0.013, 0.8, 'fixed-free', { ...STEEL, ...material });
  const loadOf = (material: Partial<Material>) =>
    screwBucklingLoad(0.013, 0.8, 'fixed-free', { ...STEEL, ...material });
  expectNaN((stiffness) => speedOf({ stiffness }), [1], bad);
  expectNaN((density) => speedOf({ density }), [1], bad);
  expectNaN((stiffness) => loadOf({ stiffness }), [1], bad);
  expectNaN((stress) => screwStressLoad(0.013, { ...STEEL, stress }), [1], bad);
  it('flanks that lean past a right angle are no thread', () => {
    expect(raisingTorque(100, { ...thread, halfAngle: 2 })).toBeNaN();
  });
  expectNaN(leadAngle, [0.005, 0.012], [0, -1, Number.NaN]);
  expectNaN(collarTorque, [100, 0.1, 0.03], [0, -1, Number.NaN]);
  expectNaN(screwEfficiency, [100, 0.005, 0.1], [0, -1, Number.NaN]);
  const bend =
    (move: typeof raisingTorque) => (force: number, meanDiameter: number, lead: number, friction: number) =>
      move(force, { meanDiameter, lead, friction, halfAngle: 0 });
  expectNaN(bend(raisingTorque), [100, 0.03, 0.008, 0.08]);
  expectNaN(bend(loweringTorque), [100, 0.03, 0.008, 0.08]);
});
