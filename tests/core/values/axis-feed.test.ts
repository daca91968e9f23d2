import { describe, expect, it } from 'vitest';
import { AXIS, type Differences, numberAt, smallMachine, valueAt, valuesOf } from './small-machine.ts';

const top = (of: Differences) => valueAt(valuesOf(smallMachine(of)), 'axes.X.top-feed');
const nut = AXIS.replace('efficiency: 90 %', 'efficiency: 90 %, nut-speed: 1000 rpm');

describe('the limits of the feed', () => {
  it.each([
    ['pulse-rate', 37500], // 100 kHz / 160 per mm
    ['motor-speed', 18718.624], // 1871.86 rpm × 10 mm
    ['critical-speed', 28379.893], // 80 % × 3547.49 rpm × 10 mm
    ['nut-speed', 10000],
  ])('%s', (name, expected) =>
    expect(numberAt({ axis: nut }, `axes.X.feed-limit.${name}`) / expected).toBeCloseTo(1, 6),
  );
  it('the critical speed of the screw', () =>
    expect(numberAt({}, 'axes.X.screw-critical-speed') / 3547.4867).toBeCloseTo(1, 6));
  it('the load under which the screw buckles', () =>
    expect(numberAt({}, 'axes.X.screw-buckling-load') / 3233.5671).toBeCloseTo(1, 6));
});

describe('the top feed', () => {
  it.each<[string, Differences, string]>([
    ['nut', { axis: nut }, 'nut speed'],
    ['motor', {}, 'motor speed'],
    ['critical speed', { driveSet: 'phase-current: 4 A', supply: '75 V' }, 'critical speed'],
    ['pulse rate', { pulse: 'top-rate: 20 kHz' }, 'pulse rate'],
  ])('names the %s when it binds', (_, of, limit) => expect(top(of).limit).toBe(limit));

  it('lists all limits from the least up, so that the next one can be read', () => {
    const value = top({ axis: nut });
    expect(value.formula).toBe(
      'least of nut speed limit, motor speed limit, critical speed limit, pulse rate limit',
    );
    expect(value.working).toBe(
      'least of 10000 mm/min, 18718.6 mm/min, 28379.9 mm/min, 37500 mm/min = 10000 mm/min',
    );
    expect(value.source).toBe(
      'the nut speed binds at 10000 mm/min: a stronger motor, a stiffer screw or a faster pulse rate would gain nothing; without it the motor speed would bind at 18720 mm/min',
    );
  });

  it('halves with twice the microsteps while the pulse rate binds', () => {
    const slow = { pulse: 'top-rate: 20 kHz' };
    expect(top(slow).value).toBeCloseTo(7500, 6);
    expect(top({ ...slow, driveSet: 'microsteps: 16' }).value).toBeCloseTo(3750, 6);
  });

  it('says which limit is not known', () => {
    const value = top({ axis: AXIS.replace('mass: 20 kg, ', '') });
    expect(value.limit).toBe('critical speed');
    expect(value.source).toContain('the limit by motor speed is not known');
  });

  it('is nothing for a motor that is too weak', () => {
    const value = top({ axis: AXIS.replace('force: 100 N', 'force: 900 N') });
    expect(value.value).toBe(0);
    expect(value.limit).toBe('motor speed');
  });
});
