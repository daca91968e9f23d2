import { describe, expect, it } from 'vitest';
import { type Differences, needsOf, smallMachine, valueAt, valuesOf } from './small-machine.ts';

/** A machine of 160 pulses per mm whose axis was measured; the panel has what is given keyed in. */
const measured = (records: string, keyed = '160 /mm'): Differences => ({
  panelSettings: `scale: { is: pulses-per-length, axis: X, unit: /mm, decimals: 3, default: ${keyed} }`,
  more: `records: [${records}]\n`,
});
const record = (figures: string) => `{ date: 2026-01-01, axis: X, ${figures} }`;
const wanted = (of: Differences) => valueAt(valuesOf(smallMachine(of)), 'settings.panel.scale.wanted').value;
const corrected = 'axes.X.corrected-pulses-per-length';

describe('a measured travel', () => {
  const coarse = measured(record('asked: 500 mm, seen: 499.98 mm, within: 0.05 mm'));
  it('corrects nothing while its error is within its own uncertainty', () => {
    expect(needsOf(coarse, corrected)).toBe(
      'an error greater than the 0.05 mm that the measurement may be off by',
    );
    expect(wanted(coarse)).toBe(160);
  });

  const fine = measured(record('asked: 500 mm, seen: 499.62 mm, within: 0.05 mm'));
  it('corrects what is keyed in when its error is greater', () => {
    const values = valuesOf(smallMachine(fine));
    expect(valueAt(values, 'axes.X.measured-error').value).toBeCloseTo(-380, 6);
    expect(valueAt(values, corrected).value).toBeCloseTo((160 * 500) / 499.62, 9);
    expect(wanted(fine)).toBe(160.122); // 160.12169
  });

  it('asks for no second correction once the first is keyed in', () => {
    const figures = 'asked: 500 mm, seen: 499.62 mm, within: 0.05 mm, scale: 160 /mm';
    expect(wanted(measured(record(figures), '160.122 /mm'))).toBe(160.122);
  });

  it('confirms a correction when it is measured again', () => {
    const again = measured(record('asked: 500 mm, seen: 500.01 mm, within: 0.05 mm'), '160.122 /mm');
    expect(wanted(again)).toBe(160.122);
  });

  it('counts by the newest of an axis', () => {
    const of = measured(
      `${record('asked: 500 mm, seen: 499.62 mm, within: 0.05 mm')}, ${record('asked: 500 mm, seen: 500 mm, within: 0.05 mm')}`,
    );
    expect(wanted(of)).toBe(160);
  });

  it('leaves the computed figure alone when a slip in keying in explains the error', () => {
    const slip = measured(record('asked: 500 mm, seen: 496.875 mm, within: 0.05 mm'), '159 /mm');
    expect(needsOf(slip, corrected)).toBe('an error that the computed pulses per length do not explain');
    expect(wanted(slip)).toBe(160);
  });

  it('says nothing of a drive train that was changed since', () => {
    const of = {
      ...measured(record('asked: 500 mm, seen: 500 mm, within: 0.05 mm')),
      driveSet: 'microsteps: 16',
    };
    expect(wanted(of)).toBe(320);
  });

  it('needs to know how closely it was measured', () =>
    expect(needsOf(measured(record('asked: 500 mm, seen: 499.62 mm')), corrected)).toBe(
      'how far off the measurement may be (within)',
    ));

  it('works for a move in the minus direction', () => {
    const back = measured(record('asked: -500 mm, seen: -499.62 mm, within: 0.05 mm'));
    expect(wanted(back)).toBe(160.122);
  });
});
