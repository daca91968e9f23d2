import { describe, expect, it } from 'vitest';
import { needsOf, numberAt, smallMachine, valueAt, valuesOf } from './small-machine.ts';

const wheel = (signal: string, facts = 'detents: 100') => ({
  parts: `  wheel: { class: handwheel, terminals: { w: [WA, WB, WP, WM] }, circuits: { a: { ${signal}, does: handwheel A } }, facts: { ${facts} } }\n`,
  panelCircuits: ', count: { pulled-up-in: [SV, G], does: handwheel A }',
  wiring: '  - wheel.WA -> panel.SV\n',
  panelSettings:
    'kind: { is: handwheel-kind, choices: [off, single-ended, pair], default: off }, step: { is: handwheel-step, unit: mm, decimals: 2, default: 0.1 mm }',
});
const single = {
  ...wheel('push-pull-out: [WA, WP, WM]'),
  more: 'handwheel: { part: wheel, step: 0.002 mm, spin: 2 rev/s }\n',
};

describe('handwheel', () => {
  // 2 turns a second × 100 clicks × 0.002 mm = 0.4 mm/s = 24 mm/min
  it.each([
    [1, 24],
    [10, 240],
    [100, 2400],
  ])('feed at ×%s', (multiplier, expected) =>
    expect(numberAt(single, `handwheel.feed-at-${multiplier}`)).toBeCloseTo(expected, 9),
  );
  it('turns a rotary axis in rpm', () => {
    const turning = { ...single, more: 'handwheel: { part: wheel, step: 0.01 deg, spin: 2 rev/s }\n' };
    expect(numberAt(turning, 'handwheel.feed-at-1')).toBeCloseTo(2 / 6, 9); // 2 deg/s
  });
  it('says what is missing', () =>
    expect(needsOf({ ...single, more: 'handwheel: { part: wheel }\n' }, 'handwheel.feed-at-10')).toBe(
      'the step of one detent and how fast the wheel is turned',
    ));
  it('wants the kind of input that the wheel has signals for', () => {
    const pair = { ...wheel('line-out: [WA, WB]'), more: single.more };
    expect(valueAt(valuesOf(smallMachine(single)), 'settings.panel.kind.wanted').word).toBe('single-ended');
    expect(valueAt(valuesOf(smallMachine(pair)), 'settings.panel.kind.wanted').word).toBe('pair');
    expect(valueAt(valuesOf(smallMachine(pair)), 'settings.panel.kind.now').word).toBe('off');
  });
  it('wants nothing of a part that the wheel is not wired to', () => {
    const elsewhere = {
      ...single,
      parts: `${single.parts}  pendant: { class: controller, terminals: { w: [PA, PG] }, circuits: { count: { pulled-up-in: [PA, PG], does: handwheel A } } }\n`,
      wiring: '  - wheel.WA -> pendant.PA\n',
    };
    const values = valuesOf(smallMachine(elsewhere));
    expect(['kind', 'step'].filter((name) => values.byAddress.has(`settings.panel.${name}.wanted`))).toEqual(
      [],
    );
  });
  it('wants the nearest step that the panel can show, but never none', () =>
    expect(valueAt(valuesOf(smallMachine(single)), 'settings.panel.step.wanted').value).toBeCloseTo(
      0.01,
      12,
    ));
});
