import { describe, expect, it } from 'vitest';
import { createFettle } from '../../../server/core/fettle.ts';
import { worldOf } from '../../support/world.ts';

/* Which output a drive is pulsed by, told by the top rate that the axis gets from it. */

const FILE = 'bench.machine.yaml';

/** The top pulse rate of an axis in kHz; the outputs of the controller have 10, 20 and 30 kHz, the drive 90. */
function rateOf(links: readonly string[]): number | undefined {
  const text = `machine: Bench
parts:
  control: { class: controller, terminals: { all: [V5, G, Y, X, L+, L-] }, circuits: {
    feed: { power-out: [V5, G], voltage: 5 V },
    y: { sink-out: [Y, G], does: pulse Y, drop: 0.3 V, current: 50 mA, top-rate: 10 kHz },
    x: { sink-out: [X, G], does: pulse X, drop: 0.3 V, current: 50 mA, top-rate: 20 kHz },
    line: { line-out: [L+, L-], does: pulse A, voltage: 3 V, resistance: 30 ohm, top-rate: 30 kHz } } }
  drive: { class: drive, terminals: { all: [P+, P-] }, circuits: {
    pulse: { opto-in: [P+, P-], does: pulse, forward: 1.2 V, series: 350 ohm, on-at: 6 mA, top-rate: 90 kHz } } }
axes:
  X: { drive: drive, travel: 100 mm }
wiring:
${links.map((link) => `  - ${link}\n`).join('')}`;
  const rate = createFettle(worldOf(new Map()))
    .analyse(FILE, text)
    .values.byAddress.get('axes.X.pulse-rate-limit');
  return rate && rate.si / 1e3;
}

describe('the output that pulses a drive', () => {
  it('is the one at its input, though another has its return there', () => {
    expect(rateOf(['control.V5 -> drive.P+', 'control.X -> drive.P-'])).toBeCloseTo(20, 9);
    expect(rateOf(['control.X -> drive.P+', 'control.G -> drive.P-'])).toBeCloseTo(20, 9);
  });
  it('may be half of a pair of lines, either half', () => {
    expect(rateOf(['control.L+ -> drive.P+', 'control.L- -> drive.P-'])).toBeCloseTo(30, 9);
    expect(rateOf(['control.L+ -> drive.P+', 'control.G -> drive.P-'])).toBeCloseTo(30, 9);
    expect(rateOf(['control.L- -> drive.P+', 'control.G -> drive.P-'])).toBeCloseTo(30, 9);
  });
  it('is none where nothing is wired but a return, so that the drive alone sets the rate', () => {
    expect(rateOf(['control.G -> drive.P-'])).toBeCloseTo(90, 9);
  });
});
