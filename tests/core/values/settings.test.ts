import { describe, expect, it } from 'vitest';
import { AXIS, type Differences, needsOf, smallMachine, valueAt, valuesOf } from './small-machine.ts';

const wanted = (of: Differences, name: string) =>
  valueAt(valuesOf(smallMachine(of)), `settings.${name}.wanted`);
const panel = (settings: string, axis = AXIS): Differences => ({ panelSettings: settings, axis });

describe('exact settings', () => {
  it('pulses per length to the decimals of the part, and what that costs', () => {
    const of = panel(
      'scale: { is: pulses-per-length, axis: X, unit: /mm, decimals: 2, default: 251.97 /mm }',
      AXIS.replace('lead: 10 mm', 'lead: 0.25 in'),
    );
    const value = wanted(of, 'panel.scale');
    expect(value.value).toBe(251.97); // 1600 / 6.35 = 251.9685
    expect(value.working).toBe('251.969 /mm, rounded to 2 decimals = 251.97 /mm');
    const values = valuesOf(smallMachine(of));
    expect(valueAt(values, 'axes.X.rounding-error').value).toBeCloseTo(5.9375, 4); // 251.97 × 6.35 / 1600 − 1
    expect(valueAt(values, 'axes.X.rounding-drift').value).toBeCloseTo(3.5625, 4); // of 600 mm
  });
  it.each([
    [
      'feed goes down, since a lower one is safe',
      'top-feed',
      'unit: mm/min, step: 250 mm/min',
      'feed: 6000 mm/min',
      'feed: 6240 mm/min',
      6000,
    ],
    ['acceleration goes down', 'acceleration', 'unit: mm/s2, decimals: 0', '500 mm/s2', '500.9 mm/s2', 500],
    ['travel goes down', 'travel', 'unit: mm, decimals: 0', '600 mm,', '600.7 mm,', 600],
    ['a whole number stays', 'travel', 'unit: mm, decimals: 0', '600 mm,', '600 mm,', 600],
    ['an inch setting on a metric axis', 'travel', 'unit: in, decimals: 3', '600 mm,', '635 mm,', 25],
    [
      'homing feed',
      'home-feed',
      'unit: mm/min, decimals: 0',
      'feed: 1200 mm/min',
      'feed: 1234.5 mm/min',
      1234,
    ],
    ['a span that ends below', 'travel', 'unit: mm, span: 1..500 mm', '600 mm,', '600 mm,', 500],
    [
      'the nearest choice below',
      'travel',
      'unit: mm, choices: [300 mm, 550 mm, 610 mm]',
      '600 mm,',
      '600 mm,',
      550,
    ],
  ])('%s', (_, is, figures, from, to, expected) => {
    const of = panel(`p: { is: ${is}, axis: X, ${figures} }`, AXIS.replace(from, to));
    expect(wanted(of, 'panel.p').value).toBeCloseTo(expected, 9);
  });
  it('says so when no value is on the safe side', () => {
    const of = panel('p: { is: travel, axis: X, unit: mm, choices: [700 mm, 900 mm] }');
    expect(needsOf(of, 'settings.panel.p.wanted')).toBe('a setting that goes far enough');
  });
  it('leaves backlash alone', () => {
    const values = valuesOf(smallMachine(panel('b: { is: backlash, axis: X, unit: mm, default: 0.02 mm }')));
    expect(valueAt(values, 'settings.panel.b.now').value).toBeCloseTo(0.02, 12);
    expect(values.byAddress.has('settings.panel.b.wanted')).toBe(false);
  });
});

describe('the phase current', () => {
  const choices = (list: string, set: string, basis = 'rms'): Differences => ({
    driveSettings: `microsteps: { is: microsteps, default: 8 }, amps: { is: phase-current, unit: A, choices: [${list}], default: ${list.split(',')[0]} }`,
    driveBasis: `current-basis: ${basis}`,
    driveSet: `amps: ${set}`,
  });
  it('is left alone up to the rated current', () =>
    expect(wanted(choices('1 A, 3.5 A, 4.5 A', '1 A'), 'drive-1.amps').value).toBe(1));
  it('goes down to the next choice when it is above', () => {
    const value = wanted(choices('1 A, 3.5 A, 4.5 A', '4.5 A'), 'drive-1.amps');
    expect(value.value).toBeCloseTo(3.5, 12);
    expect(value.working).toBe('4 A, the next choice below = 3.5 A');
  });
  it('counts in the basis of the drive: 4 A RMS is 5.66 A peak', () => {
    expect(wanted(choices('1 A, 5.6 A, 6 A', '6 A', 'peak'), 'drive-1.amps').value).toBeCloseTo(5.6, 12);
    expect(wanted(choices('1 A, 5.6 A, 6 A', '5.6 A', 'peak'), 'drive-1.amps').value).toBeCloseTo(5.6, 12);
  });
  it('says so when every choice is too much', () =>
    expect(needsOf(choices('4.5 A, 5 A', '5 A'), 'settings.drive-1.amps.wanted')).toBe(
      'a setting that goes low enough',
    ));
});

describe('the second drive of an axis', () => {
  const two = { two: true };
  it('is set like the first', () => {
    const value = wanted(two, 'drive-2.microsteps');
    expect([value.value, value.working, value.source]).toEqual([
      8,
      '8',
      'X is moved by both, so they turn alike',
    ]);
    expect(valuesOf(smallMachine(two)).byAddress.has('settings.drive-1.microsteps.wanted')).toBe(false);
  });
  it('is not told when its motor has other steps', () => {
    const text = smallMachine(two).replace(/(motor-2: .*?step-angle: )1\.8 deg/, '$10.9 deg');
    expect(valuesOf(text).byAddress.has('settings.drive-2.microsteps.wanted')).toBe(false);
  });
});

describe('pulse times', () => {
  const timed = (lead: string, width: string): Differences => ({
    driveInputs:
      'pulse: { opto-in: [P+, P-], does: pulse, least-on: 2.5 us }, direction: { opto-in: [D+, D-], does: direction, lead: 5 us }',
    panelSettings: `lead: { is: direction-lead, unit: ns, step: 500 ns, span: 500..20000 ns, default: ${lead} }, width: { is: pulse-width, unit: ns, step: 100 ns, default: ${width} }`,
  });
  it('are a fifth longer than the drive asks for, in whole steps', () => {
    expect(wanted(timed('2000 ns', '2000 ns'), 'panel.lead').value).toBeCloseTo(6000, 6);
    expect(wanted(timed('2000 ns', '2000 ns'), 'panel.width').value).toBeCloseTo(3000, 6);
  });
  it('are left alone when they are longer', () => {
    expect(wanted(timed('8000 ns', '4000 ns'), 'panel.lead').value).toBeCloseTo(8000, 6);
    expect(wanted(timed('8000 ns', '4000 ns'), 'panel.width').value).toBeCloseTo(4000, 6);
  });
});
