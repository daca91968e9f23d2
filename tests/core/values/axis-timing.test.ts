import { describe, expect, it } from 'vitest';
import { type Differences, numberAt, smallMachine, valueAt, valuesOf } from './small-machine.ts';

/** What the drive's two inputs ask for, and how late they are. */
const timed = (pulse: string, direction = '', lead = '6000 ns'): Differences => ({
  driveInputs: `pulse: { opto-in: [P+, P-], does: pulse${pulse} }, direction: { opto-in: [D+, D-], does: direction, lead: 5 us${direction} }`,
  pulse: 'on-time: 4 us, off-time: 3 us',
  panelSettings: `lead: { is: direction-lead, unit: ns, step: 500 ns, span: 500..20000 ns, default: ${lead} }`,
});
const asks = ', least-on: 2.5 us, least-off: 2.5 us';

describe('margins of the pulse and direction signals', () => {
  it.each([
    ['lead-margin', 1000, 'ns'],
    ['lead-share', 20, '%'], // 1 of 5 us
    ['on-margin', 1500, 'ns'],
    ['on-share', 60, '%'], // 1.5 of 2.5 us
    ['off-margin', 500, 'ns'],
    ['off-share', 20, '%'],
  ])('%s is %s %s', (name, expected) =>
    expect(numberAt(timed(asks), `axes.X.timing.${name}`)).toBeCloseTo(expected, 6),
  );

  it('is not a share of nothing', () => {
    const values = valuesOf(smallMachine(timed(', least-on: 2.5 us')));
    expect(values.byAddress.has('axes.X.timing.off-share')).toBe(false);
  });
});

// A lamp that turns on in 0.3 us and off in 1.1 us shortens the pause by 0.8 us and leaves the pulse longer; a
// direction input that is 2 us late, whichever way, shortens the lead by 2 − 0.3 us. Arithmetic of the delays.
describe('the skew of optocouplers', () => {
  const skewed = timed(`${asks}, on-delay: 0.3 us, off-delay: 1.1 us`, ', delay: 2 us, hold: 1 us');
  it.each([
    ['off-margin', 500 - 800],
    ['on-margin', 1500],
    ['lead-margin', 1000 - 1700],
  ])('%s', (name, expected) => expect(numberAt(skewed, `axes.X.timing.${name}`)).toBeCloseTo(expected, 6));

  it('is in the working, and in the share', () => {
    const values = valuesOf(smallMachine(skewed));
    expect(valueAt(values, 'axes.X.timing.off-margin').working).toBe('3 us − 2.5 us − 800 ns = -300 ns');
    expect(valueAt(values, 'axes.X.timing.off-share').value).toBeCloseTo((-300 / 3300) * 100, 9);
  });

  it('lowers the highest safe pulse rate, which names its figures', () => {
    const rate = valueAt(valuesOf(smallMachine(skewed)), 'axes.X.pulse-rate-limit');
    expect(rate.value).toBeCloseTo(1 / (4e-6 + 3.3e-6), 3); // 4 us on, 2.5 + 0.8 us off
    expect(rate.working).toBe('least of 1 / (4 us + (2.5 us + 800 ns)) = 136986 Hz');
    expect(numberAt(timed(asks), 'axes.X.pulse-rate-limit')).toBeCloseTo(1 / 7e-6, 3);
  });

  it('raises the lead that is set, up to the next step', () => {
    const wanted = valueAt(valuesOf(smallMachine(skewed)), 'settings.panel.lead.wanted');
    expect(wanted.value).toBeCloseTo(8500, 6); // 1.2 × (5 + 1.7) us = 8.04 us, in steps of 0.5 us
    expect(wanted.rounding).toBe('raised to steps of 500 ns');
  });
});
