import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Values } from '../../../server/core/values/derived.ts';
import { AXIS, type Differences, inInches, numberAt, smallMachine, valuesOf } from './small-machine.ts';

const RUNS = { numRuns: 25 };
const RECORD =
  'records:\n  - { date: 2026-01-01, axis: X, asked: 254 mm, seen: 254.6 mm, within: 0.05 mm }\n';
const SETTINGS =
  'scale: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3, default: 160 /mm }, reach: { is: travel, axis: X, unit: mm, decimals: 1, default: 600 mm }';

describe('the same machine in inches', () => {
  const metric = smallMachine({ more: RECORD, panelSettings: SETTINGS });
  const imperial = inInches(metric);
  const numbers = (values: Values) =>
    [...values.byAddress].map(([address, { value }]) => ({ address, value }));
  const [before, after] = [numbers(valuesOf(metric)), numbers(valuesOf(imperial))];

  it('has the same values at the same addresses', () => {
    expect(after.map(({ address }) => address)).toEqual(before.map(({ address }) => address));
    expect(before.length).toBeGreaterThan(25);
  });
  it.each(
    before.map(({ address, value }, index) => [address, value, after[index]?.value ?? Number.NaN] as const),
  )('%s', (_, value, other) =>
    expect(Math.abs(other - value)).toBeLessThanOrEqual(1e-9 * Math.abs(value) + 1e-12),
  );
  it('lacks the same', () => expect([...valuesOf(imperial).missing]).toEqual([...valuesOf(metric).missing]));
});

/** A change that must not make a value larger. */
const falls = (address: string, sizes: fc.Arbitrary<number>, machine: (size: number) => Differences): void =>
  fc.assert(
    fc.property(sizes, sizes, (a, b) => {
      const [less, more] = [Math.min(a, b), Math.max(a, b)];
      const before = numberAt(machine(less), address);
      expect(numberAt(machine(more), address)).toBeLessThanOrEqual(before * (1 + 1e-9));
    }),
    RUNS,
  );

const whole = (min: number, max: number) => fc.integer({ min, max });
const axisWith = (from: string, to: (size: number) => string) => (size: number) => ({
  axis: AXIS.replace(from, to(size)),
});
const heavier = axisWith('mass: 20 kg', (size) => `mass: ${size} kg`);
const pushed = axisWith('force: 100 N', (size) => `force: ${size} N`);
const longer = axisWith('length: 800 mm', (size) => `length: ${size} mm`);
const steeper = (size: number) => ({ axis: `${AXIS}, incline: ${size} deg` });
const quicker = axisWith('acceleration: 500 mm/s2', (size) => `acceleration: ${size} mm/s2`);
const finer = (size: number) => ({ pulse: 'top-rate: 60 kHz', driveSet: `microsteps: ${size}` });
const rate = (size: number) => ({ pulse: `top-rate: ${1000 - size} kHz` });

describe('what can only make it worse', () => {
  it('finer microsteps never raise the top feed', () => falls('axes.X.top-feed', whole(1, 256), finer));
  it('finer microsteps never raise the torque of one', () =>
    falls('axes.X.microstep-torque', whole(1, 256), finer));
  it('a heavier mass never raises the margin', () => falls('axes.X.torque-margin', whole(1, 500), heavier));
  it('a heavier mass never raises the top feed', () => falls('axes.X.top-feed', whole(1, 500), heavier));
  it('a greater force never raises the margin', () => falls('axes.X.torque-margin', whole(0, 5000), pushed));
  it('a steeper axis never has more margin', () => falls('axes.X.torque-margin', whole(0, 85), steeper));
  it('more acceleration never leaves more margin', () =>
    falls('axes.X.torque-margin', whole(10, 9000), quicker));
  it('more acceleration never lengthens the stop', () =>
    falls('axes.X.stopping-distance', whole(10, 9000), quicker));
  it('a longer screw never turns faster', () =>
    falls('axes.X.screw-critical-speed', whole(200, 3000), longer));
  it('a longer screw never bears more', () => falls('axes.X.screw-buckling-load', whole(200, 3000), longer));
  it('a slower controller never raises the top feed', () => falls('axes.X.top-feed', whole(1, 990), rate));
});

describe('scale', () => {
  const same = (address: string, of: (times: number) => Differences, power: number) =>
    fc.assert(
      fc.property(whole(2, 15), (times) => {
        const before = numberAt(of(1), address);
        expect(numberAt(of(times), address) / (before * times ** power)).toBeCloseTo(1, 9);
      }),
      RUNS,
    );
  const pushedUp = (times: number) => ({
    axis: AXIS.replace('mass: 20 kg', `mass: ${20 * times} kg`).replace(
      'force: 100 N',
      `force: ${100 * times} N`,
    ),
  });
  it('so many times the mass and the force is so many times the thrust', () =>
    same('axes.X.thrust', pushedUp, 1));
  it('so many times the feed stops in the square of it', () =>
    same(
      'axes.X.stopping-distance',
      (times) => ({ axis: AXIS.replace('feed: 6000 mm/min', `feed: ${1000 * times} mm/min`) }),
      2,
    ));
  it('so many times the acceleration ramps in so much less time', () =>
    same('axes.X.ramp-time', (times) => ({ axis: AXIS.replace('500 mm/s2', `${500 * times} mm/s2`) }), -1));
  it('so many times the length of a screw lowers its speed by the square', () =>
    same(
      'axes.X.screw-critical-speed',
      (times) => ({ axis: AXIS.replace('length: 800 mm', `length: ${200 * times} mm`) }),
      -2,
    ));
  it('so many times the supply voltage is so many times the corner speed', () =>
    same('axes.X.motor-corner-speed', (times) => ({ supply: `${5 * times} V` }), 1));
  it('so many times the rate of the controller is so many times the feed that it allows', () =>
    same('axes.X.feed-limit.pulse-rate', (times) => ({ pulse: `top-rate: ${10 * times} kHz` }), 1));
  it('a lead so many times as long makes so many times fewer pulses', () => {
    fc.assert(
      fc.property(whole(1, 15), (times) => {
        const of = axisWith('lead: 10 mm', (size) => `lead: ${size} mm`);
        const address = 'axes.X.pulses-per-length';
        expect(numberAt(of(10 * times), address) * times).toBeCloseTo(numberAt(of(10), address), 9);
      }),
      RUNS,
    );
  });
});
