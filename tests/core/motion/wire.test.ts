import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ambientFactor,
  conductorCapacity,
  conductorCountFactor,
  groupingFactor,
  smallConductorCapacity,
} from '../../../server/core/motion/capacity.ts';
import {
  awgArea,
  awgDiameter,
  copperResistance,
  dropThereAndBack,
  resistanceAt,
  sizeResistance,
} from '../../../server/core/motion/wire.ts';
import { expectNaN } from './outside.ts';

const MM2 = 1e-6;
const METRIC = [0.25, 0.34, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35];
const some = fc.double({ min: 1e-3, max: 1e3, noNaN: true });

describe('gauges', () => {
  it('36 is 5 mil and 0000 is 460 mil, the two ends that define the scale (ASTM B258)', () => {
    expect(awgDiameter(36) / 25.4e-6).toBeCloseTo(5, 9);
    expect(awgDiameter(-3) / 25.4e-6).toBeCloseTo(460, 9);
  });
  it('39 gauges thinner is 92 times thinner', () => {
    expect(awgDiameter(-3) / awgDiameter(36)).toBeCloseTo(92, 9);
  });
  it('a higher number is always a thinner wire', () => {
    fc.assert(
      fc.property(fc.integer({ min: -3, max: 39 }), (gauge) => {
        expect(awgArea(gauge + 1)).toBeLessThan(awgArea(gauge));
      }),
    );
  });
});

describe('resistance', () => {
  it.each(METRIC)('of %d mm2 is above its nominal area and below a fifth more, plain or tinned', (size) => {
    for (const tinned of [false, true]) {
      const excess = sizeResistance(size * MM2, tinned) / copperResistance(size * MM2);
      expect(excess).toBeGreaterThan(1);
      expect(excess).toBeLessThan(1.2);
    }
    expect(sizeResistance(size * MM2, true)).toBeGreaterThanOrEqual(sizeResistance(size * MM2));
  });
  it('never falls for a thinner wire in the table', () => {
    const resistances = METRIC.map((size) => sizeResistance(size * MM2));
    expect(resistances).toEqual([...resistances].sort((a, b) => b - a));
  });
  it('of a size outside the table errs to the high side', () => {
    expect(sizeResistance(0.14 * MM2)).toBeCloseTo(1.2 * copperResistance(0.14 * MM2), 12);
    expect(sizeResistance(0.14 * MM2)).toBeGreaterThan(sizeResistance(0.25 * MM2));
  });
  it('rises by 0.393 % with each kelvin (IEC 60028)', () => {
    expect(resistanceAt(1000, 21) - 1000).toBeCloseTo(3.93, 9);
    expect(resistanceAt(1000, 20)).toBe(1000);
  });
  it('the drop is that of two conductors in series', () => {
    fc.assert(
      fc.property(some, some, some, (perLength, length, current) => {
        const drop = dropThereAndBack(perLength, length, current);
        expect(drop / (current * (perLength * length + perLength * length))).toBeCloseTo(1, 12);
        expect(dropThereAndBack(perLength, 2 * length, current) / drop).toBeCloseTo(2, 12);
      }),
    );
  });
});

describe('capacity', () => {
  const size = fc.double({ min: 0.2, max: 50, noNaN: true });
  const laying = fc.constantFrom('B1', 'B2', 'C', 'E');

  it('never falls for a thicker conductor', () => {
    fc.assert(
      fc.property(size, size, laying, (a, b, laid) => {
        const thick = conductorCapacity(Math.max(a, b) * MM2, laid);
        expect(thick).toBeGreaterThanOrEqual(conductorCapacity(Math.min(a, b) * MM2, laid));
      }),
    );
  });
  it('never falls as the air around it gets freer', () => {
    fc.assert(
      fc.property(size, (a) => {
        const free = conductorCapacity(a * MM2, 'E');
        expect(free).toBeGreaterThanOrEqual(conductorCapacity(a * MM2, 'C'));
        expect(conductorCapacity(a * MM2, 'C')).toBeGreaterThanOrEqual(conductorCapacity(a * MM2, 'B2'));
      }),
    );
  });
  it('of each size in the table is more than that of a size just below it', () => {
    for (const listed of [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16]) {
      for (const laid of ['B1', 'B2', 'C', 'E'] as const) {
        const below = conductorCapacity(0.99 * listed * MM2, laid);
        expect(conductorCapacity(listed * MM2, laid), `${listed} mm2 ${laid}`).toBeGreaterThan(below);
      }
    }
  });
  it('grows slower than the copper, since a thick conductor has less skin for its core', () => {
    const sizes = [0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16];
    for (const laid of ['B1', 'B2', 'C', 'E'] as const) {
      const densities = sizes.map((listed) => conductorCapacity(listed * MM2, laid) / listed);
      expect(densities).toEqual([...densities].sort((a, b) => b - a));
    }
  });
  it('of a size between two rows is that of the thinner one', () => {
    expect(conductorCapacity(awgArea(18), 'B2')).toBe(conductorCapacity(0.75 * MM2, 'B2'));
    expect(conductorCapacity(1.49 * MM2, 'C')).toBe(conductorCapacity(1 * MM2, 'C'));
  });
  it('of a size beyond the table is not made up', () => {
    expect(conductorCapacity(0.14 * MM2, 'B2')).toBeNaN();
    expect(smallConductorCapacity(17)).toBeNaN();
    expect(smallConductorCapacity(31)).toBeNaN();
    expect(smallConductorCapacity(25)).toBe(1);
  });
  it('is nothing at the temperature that the conductor may reach', () => {
    expect(ambientFactor(40)).toBe(1);
    expect(ambientFactor(70)).toBe(0);
    expect(ambientFactor(90)).toBe(0);
    expect(ambientFactor(40, 70, 70)).toBeNaN();
  });
  it('never rises with more circuits in one group', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 8 }), laying, (circuits, laid) => {
        expect(groupingFactor(circuits + 1, laid)).toBeLessThanOrEqual(groupingFactor(circuits, laid));
      }),
    );
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (conductors) => {
        expect(conductorCountFactor(conductors + 1)).toBeLessThanOrEqual(conductorCountFactor(conductors));
      }),
    );
  });
  // EN 60204-1 Table D.2, from memory of the standard: the factor of each number of circuits from 1 to 10.
  it.each([
    ['B1', [1, 0.8, 0.65, 0.65, 0.57, 0.57, 0.5, 0.5, 0.5, Number.NaN]],
    ['B2', [1, 0.8, 0.65, 0.65, 0.57, 0.57, 0.5, 0.5, 0.5, Number.NaN]],
    ['C', [1, 0.85, 0.75, 0.75, 0.72, 0.72, 0.7, 0.7, 0.7, Number.NaN]],
    ['E', [1, 0.88, 0.77, 0.77, 0.73, 0.73, 0.72, 0.72, 0.72, Number.NaN]],
  ] as const)('of 1 to 10 circuits by method %s', (laid, factors) => {
    expect(factors.map((_factor, index) => groupingFactor(index + 1, laid))).toEqual(factors);
  });
  // NEC Table 310.15(C)(1); 1 to 3, 10 to 20 and 41 or more from memory.
  it.each([
    [1, 1],
    [3, 1],
    [4, 0.8],
    [6, 0.8],
    [7, 0.7],
    [9, 0.7],
    [10, 0.5],
    [20, 0.5],
    [21, 0.45],
    [30, 0.45],
    [31, 0.4],
    [40, 0.4],
    [41, 0.35],
  ])('of %d conductors that carry current is %d', (conductors, factor) => {
    expect(conductorCountFactor(conductors)).toBe(factor);
  });
});

describe('figures out of range', () => {
  expectNaN(copperResistance, [1e-6], [0, -1, Number.NaN]);
  expectNaN((size) => sizeResistance(size), [1e-6], [0, -1, Number.NaN]);
  expectNaN((resistance) => resistanceAt(resistance, 20), [1]);
  expectNaN((temperature) => resistanceAt(1, temperature), [20], [-300, Number.NaN]);
  expectNaN(dropThereAndBack, [1, 1, 1]);
  expectNaN((size) => conductorCapacity(size, 'C'), [1e-6], [0, -1, Number.NaN]);
  expectNaN((gauge) => smallConductorCapacity(gauge), [24], [-1, Number.NaN]);
  expectNaN((ambient) => ambientFactor(ambient), [40], [Number.NaN]);
  expectNaN((circuits) => groupingFactor(circuits, 'E'), [2], [0, -1, Number.NaN]);
  expectNaN(conductorCountFactor, [2], [0, -1, Number.NaN]);
  expectNaN(awgDiameter, [18], [Number.NaN]);
});
