import { describe, expect, it } from 'vitest';
import { needsOf, numberAt, smallMachine, valueAt, valuesOf } from './small-machine.ts';

const fan = (figures: string) => ({
  parts: `  fan: { class: load, terminals: { p: [A, B] }, circuits: { motor: { power-in: [A, B]${figures} } } }\n`,
  wiring: '  - psu.V+ -> fan.A\n  - psu.V- -> fan.B\n',
});

describe('the load of a supply', () => {
  it('takes a drive at two thirds of its set current', () => {
    expect(numberAt({}, 'parts.psu.load')).toBeCloseTo(2, 9); // of 3 A
    expect(numberAt({}, 'parts.psu.load-share')).toBeCloseTo(20, 9); // of 10 A
  });
  it('takes the effective value of a current that the drive states as a peak', () => {
    const of = { driveBasis: 'current-basis: peak' };
    expect(numberAt(of, 'parts.psu.load')).toBeCloseTo(2 / Math.SQRT2, 9); // of 3 A
    expect(valueAt(valuesOf(smallMachine(of)), 'parts.psu.load').working).toBe(
      '2/3 × (3 A / √2) = 1.41421 A',
    );
  });
  it('adds drives and other loads up', () => {
    const of = { two: true, ...fan(', current: 0.5 A') };
    expect(numberAt(of, 'parts.psu.load')).toBeCloseTo(4.5, 9);
    const value = valueAt(valuesOf(smallMachine(of)), 'parts.psu.load');
    expect(value.working).toBe('2/3 × (3 A + 3 A) + 0.5 A = 4.5 A');
    expect(value.source).toContain('common practice');
  });
  it('takes a drive without a setting by its sheet', () =>
    expect(
      numberAt({ driveSettings: 'microsteps: { is: microsteps, default: 8 }' }, 'parts.psu.load'),
    ).toBeCloseTo(3, 9));
  it('says which load has no current', () =>
    expect(needsOf(fan(''), 'parts.psu.load')).toBe('the current of fan'));
});
