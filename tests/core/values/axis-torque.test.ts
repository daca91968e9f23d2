import { describe, expect, it } from 'vitest';
import { AXIS, type Differences, needsOf, numberAt } from './small-machine.ts';

// Every expected figure was worked out apart from this code, from the formulas in the design's table.
const near = (of: Differences, address: string, expected: number) =>
  expect(numberAt(of, address) / expected).toBeCloseTo(1, 6);

describe('a level screw axis', () => {
  it.each([
    ['thrust', 109.80665], // 20 × 9.80665 × 0.05 + 100
    ['inertia', 1.0336368e-4], // 4e-5 + 1.2703e-5 (screw) + 5.0661e-5 (20 kg at 10 mm a turn)
    ['torque-needed', 0.22665345], // 109.80665 × 0.01 / (2π × 0.9) + 1.0336e-4 × 314.159
    ['steady-torque', 0.017341964], // (109.80665 − 100) × 0.01 / (2π × 0.9)
    ['standstill-torque', 1.5], // 2 × 3 / 4
    ['motor-corner-speed', 565.68542], // 48 / (2 × 3 mH × 4.2426 A × 200) = 9.428 turns a second
    ['motor-speed', 600],
    ['torque-available', 1.5 * (565.68542 / 600)],
    ['torque-margin', 6.2395413],
    ['usable-speed', 1871.8624], // 565.685 × 1.5 / (2 × 0.226653)
    ['microstep-torque', 0.29263548], // 1.5 × sin 11.25°
  ])('%s', (name, expected) => near({}, `axes.X.${name}`, expected));
});

describe('other slopes and carriers', () => {
  const sloping = (incline: string) => ({ axis: `${AXIS}, incline: ${incline}` });
  it('an upright axis carries its weight', () => {
    near(sloping('90 deg'), 'axes.X.thrust', 296.133); // 20 × 9.80665 + 100
    near(sloping('90 deg'), 'axes.X.torque-needed', 0.55615078);
  });
  it('an inclined axis carries a part of it', () => near(sloping('30 deg'), 'axes.X.thrust', 206.55931));
  it('a slope downwards is a slope upwards on the way back', () =>
    near(sloping('-30 deg'), 'axes.X.thrust', 206.55931));
  it('an axis that does not cut is pushed by friction alone', () =>
    near({ axis: AXIS.replace('force: 100 N, ', '') }, 'axes.X.thrust', 9.80665));

  const carried = (carrier: string) => AXIS.replace(/screw: \{[^}]*\}/, carrier);
  const rack = { axis: carried('rack: { module: 1.25 mm, teeth: 20, efficiency: 90 % }, gearing: 4:1') };
  it('a rack behind a gear', () => {
    near(rack, 'axes.X.inertia', 2.353125e-4);
    near(rack, 'axes.X.torque-needed', 0.41892309);
    near(rack, 'axes.X.motor-speed', 305.57749);
  });
  const belt = { axis: carried('belt: { pitch: 3 mm, teeth: 20, efficiency: 95 % }') };
  it('a belt', () => {
    near(belt, 'axes.X.inertia', 1.8637813e-3);
    near(belt, 'axes.X.torque-needed', 1.2013519);
  });
  it('pitch and starts make a lead', () =>
    near({ axis: AXIS.replace('lead: 10 mm', 'pitch: 2 mm, starts: 5') }, 'axes.X.motor-speed', 600));

  const table = 'travel: 360 deg, inertia: 0.012 kg.m2, feed: 6 rpm, acceleration: 90 deg/s2';
  it('a rotary table behind a worm', () => {
    const worm = { letter: 'A', axis: `${table}, worm: 72:1, efficiency: 45 %, torque: 3 N.m` };
    near(worm, 'axes.A.inertia', 4.2314815e-5); // 4e-5 + 0.012 / 72²
    near(worm, 'axes.A.torque-needed', 0.097378285); // 3 / (72 × 0.45) + J × 113.097
    near(worm, 'axes.A.motor-speed', 432);
  });
  it('a rotary table that the motor turns by itself loses nothing to a gear', () =>
    near({ letter: 'A', axis: table }, 'axes.A.torque-needed', 0.01204 * (Math.PI / 2)));
});

describe('two motors on one axis', () => {
  it('add their torques; each brings its rotor and its screw', () => {
    near({ two: true }, 'axes.X.standstill-torque', 3);
    near({ two: true }, 'axes.X.inertia', 1.5606678e-4);
    near({ two: true }, 'axes.X.torque-needed', 0.24321061);
    near({ two: true }, 'axes.X.torque-margin', 11.629538);
  });
});

describe('peak and RMS currents', () => {
  it('are compared in the basis of the motor', () =>
    near({ driveBasis: 'current-basis: peak' }, 'axes.X.standstill-torque', 1.0606602)); // 2 × (3 / √2) / 4
  it('make the corner by the peak', () =>
    near({ driveBasis: 'current-basis: peak' }, 'axes.X.motor-corner-speed', 800)); // 48 / (6 mH × 3 A × 200)
  it('give no torque beyond the holding torque', () =>
    near({ driveSet: 'phase-current: 4.5 A' }, 'axes.X.standstill-torque', 2));
  it('are not compared when a sheet does not say which it states', () =>
    expect(needsOf({ driveBasis: '' }, 'axes.X.standstill-torque')).toBe(
      'whether drive-1 and motor-1 state peak or RMS current',
    ));
});

describe('what is missing is said in plain words', () => {
  it.each<[string, Differences, string, string]>([
    [
      'inertia',
      { motorFacts: 'step-angle: 1.8 deg, holding-torque: 2 N.m, current-basis: rms' },
      'inertia',
      "the motor's inertia",
    ],
    [
      'efficiency',
      { axis: AXIS.replace(', efficiency: 90 %', '') },
      'torque-needed',
      'the efficiency of the screw',
    ],
    ['mass', { axis: AXIS.replace('mass: 20 kg, ', '') }, 'thrust', 'the moved mass'],
    ['friction', { axis: AXIS.replace('friction: 0.05, ', '') }, 'thrust', 'the friction of the guides'],
    ['screw', { axis: AXIS.replace(', root: 12 mm', '') }, 'inertia', "the screw's root diameter and length"],
    ['inductance', { winding: 'current: 4 A' }, 'motor-corner-speed', 'the inductance of motor-1'],
    [
      'holding torque',
      { motorFacts: 'step-angle: 1.8 deg, inertia: 400 g.cm2, current-basis: rms' },
      'standstill-torque',
      'the holding torque of motor-1',
    ],
    [
      'acceleration',
      { axis: AXIS.replace('acceleration: 500 mm/s2, ', '') },
      'torque-needed',
      'the acceleration',
    ],
  ])('%s', (_, of, name, needs) => expect(needsOf(of, `axes.X.${name}`)).toBe(needs));
});
