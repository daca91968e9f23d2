import { describe, expect, it } from 'vitest';
import { AXIS, numberAt } from './small-machine.ts';

// 6000 mm/min is 100 mm/s and 1200 mm/min is 20 mm/s, at 500 mm/s².
describe('ramp and stop', () => {
  it.each([
    ['ramp-time', 0.2],
    ['ramp-distance', 10],
    ['stopping-distance', 10],
    ['homing-overrun', 0.4],
  ])('%s', (name, expected) => expect(numberAt({}, `axes.X.${name}`)).toBeCloseTo(expected, 9));

  const late = {
    axis: `${AXIS}, switches: { far: end, home: mark }`,
    parts: `  end: { class: switch, terminals: { c: [A, B] }, circuits: { c: { contact: [A, B], rest: closed } }, facts: { delay: 10 ms } }
  mark: { class: sensor, terminals: { w: [BN, BU, BK] }, circuits: { s: { sensor: [BN, BU, BK], switching: pnp, rest: open, delay: 2 ms } } }
`,
    panelCircuits:
      ', far: { pulled-down-in: [XF, G], does: limit X far, delay: 5 ms }, home: { pulled-down-in: [XH, G], does: home X, delay: 3 ms }',
  };
  it('counts the delays of the switch and of its input', () => {
    expect(numberAt(late, 'axes.X.stopping-distance')).toBeCloseTo(11.5, 9); // 100 mm/s × 15 ms more
    expect(numberAt(late, 'axes.X.homing-overrun')).toBeCloseTo(0.5, 9); // 20 mm/s × 5 ms more
  });

  it('is in degrees on a rotary axis', () => {
    const table = 'travel: 360 deg, feed: 6 rpm, acceleration: 90 deg/s2'; // 36 deg/s
    expect(numberAt({ letter: 'A', axis: table }, 'axes.A.stopping-distance')).toBeCloseTo(7.2, 9);
  });
});
