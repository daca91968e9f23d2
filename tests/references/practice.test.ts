import { describe, expect, it } from 'vitest';
import { AXIS, type Differences, numberAt, smallMachine } from '../core/values/small-machine.ts';
import { analyseTexts } from '../support/marked.ts';
import { checkRows, setAside } from './rows.ts';

/*
 * What the trade says in words: where it holds a formula or a range, a machine is held to it; the rest is set aside
 * with the reason.
 */

const practice = 'common practice, no source';

/** Homing at 1200 mm/min (20 mm/s) and 500 mm/s2, with a filter of 5 ms in the input and a scan of 3 ms in the switch. */
const homing: Differences = {
  axis: `${AXIS}, switches: { home: mark }`,
  parts:
    '  mark: { class: sensor, terminals: { w: [BN, BU, BK] }, circuits: { s: { sensor: [BN, BU, BK], switching: pnp, rest: open, delay: 3 ms } } }\n',
  panelCircuits: ', home: { pulled-down-in: [XH, G], does: home X, delay: 5 ms }',
};

/** An output with a fixed on-time and a top rate, against an input that asks for both times. */
const pulses = (rate: string): Differences => ({
  pulse: `on-time: 4 us, top-rate: ${rate}`,
  driveInputs:
    'pulse: { opto-in: [P+, P-], does: pulse, least-on: 2.5 us, least-off: 2.5 us }, direction: { opto-in: [D+, D-], does: direction, lead: 5 us }',
});

checkRows(
  'Practice in formulas (7.5, 10.3)',
  [
    {
      id: 'F124',
      source: 'MEM',
      what: 'mm of homing overtravel, v²/2a + v t',
      value: numberAt(homing, 'axes.X.homing-overrun'),
      recomputed: 20 ** 2 / (2 * 500) + 20 * 0.008,
      standing: practice,
    },
    {
      id: 'F087a',
      source: 'MEM',
      what: 'ns left of the off-time, period 10 us less the fixed 4 us against 2.5 us',
      value: numberAt(pulses('100 kHz'), 'axes.X.timing.off-margin'),
      recomputed: 10_000 - 4000 - 2500,
      standing: practice,
    },
    {
      id: 'F087b',
      source: 'MEM',
      what: 'ns of the off-time too few at 160 kHz',
      value: numberAt(pulses('160 kHz'), 'axes.X.timing.off-margin'),
      recomputed: 6250 - 4000 - 2500,
      standing: practice,
    },
  ],
  3,
);

describe('figures of the trade are taken as they are, and a thousand times more is not (N385, N387, N388)', () => {
  const found = (figure: string) =>
    analyseTexts(
      new Map([
        [
          'small.machine.yaml',
          smallMachine({
            driveInputs: `pulse: { opto-in: [P+, P-], does: pulse, least-on: ${figure} }, direction: { opto-in: [D+, D-], does: direction, lead: ${figure} }`,
          }),
        ],
      ]),
    ).findings.filter(({ code }) => code === 'unit/implausible').length;
  it.each(['1 us', '2 us', '20 us'])('%s (common practice, no source)', (figure) =>
    expect(found(figure)).toBe(0),
  );
  it('20 ms', () => expect(found('20 ms')).toBeGreaterThan(0));
});

setAside({
  F057: 'said in words; the torque of a microstep is held to its formula in steps and torque',
  F059: 'advice on supplies; its figures are rows of their own',
  F065: 'which diameter makers use; the formulas take the root',
  F086: 'ranges of datasheets, held above',
  F088: 'receivers of RS-422, held with the circuits',
  F089: 'names of counts; four a cycle is held in N395',
  F116: 'directions of axes, from which nothing is computed',
  F117: 'directions of axes, from which nothing is computed',
  F118: 'scope of a standard',
  F119: 'names of quantities of a standard; nothing here measures by it',
  F120: 'how often to measure, which is for the person',
  F121: 'statistics of many measurements, which nothing here takes',
  F122: 'said in words; switch point and hard stop are overtravel and homing overrun',
  F123: 'an order of movements, which the controller makes',
  F125: 'said in words; a measured play is a record',
});
