import { describe, expect, it } from 'vitest';
import { type Differences, needsOf, numberAt, smallMachine, valueAt, valuesOf } from './small-machine.ts';

/** A machine with a spindle of two poles, 400 Hz, whose converter and controller are set as given. */
function spindle(
  of: { converter?: string; panel?: string; out?: string; more?: string; plate?: string } = {},
): Differences {
  return {
    parts: `  vfd: { class: converter, terminals: { s: [AI, AC, RUN] }, circuits: { speed: { analog-in: [AI, AC], does: spindle speed, span: 0..10 V, bits: 12 }, run: { pulled-up-in: [RUN, AC], does: spindle run } }, settings: { ref: { is: speed-reference, choices: [0..5 V, 0..10 V], default: 0..10 V }, run-from: { is: run-source, choices: [panel, terminals], default: panel }, base: { is: base-frequency, unit: Hz, decimals: 1, default: 50 Hz }, top: { is: top-frequency, unit: Hz, decimals: 1, span: 10..1000 Hz, default: 400 Hz }, up: { is: ramp-up, unit: s, default: 8 s }, poles: { is: poles, span: 2..12, default: 4 } }, set: { ${of.converter ?? ''} } }
  head: { class: spindle, terminals: { p: [U, V, W] }, circuits: { stator: { three-phase-in: [U, V, W] } }, facts: { ${of.plate ?? 'poles: 2, plate-frequency: 400 Hz, plate-speed: 23400 rpm'} } }
`,
    panelCircuits: `, speed: { analog-out: [SV, G], does: spindle speed, span: ${of.out ?? '0..10 V'}, bits: 10 }`,
    panelSettings:
      'top: { is: spindle-top-speed, unit: rpm, decimals: 0, default: 24000 rpm }, wait: { is: spindle-wait, unit: s, step: 0.5 s, span: 0..60 s, default: 5 s }',
    panelSet: of.panel ?? '',
    wiring: '  - panel.SV -> vfd.AI\n',
    more: `spindle: { converter: vfd, motor: head, ${of.more ?? 'top-speed: 24000 rpm'} }\n`,
  };
}

const near = (of: Differences, address: string, expected: number) =>
  expect(numberAt(of, address)).toBeCloseTo(expected, 6);
const wanted = (of: Differences, address: string) =>
  valueAt(valuesOf(smallMachine(of)), `settings.${address}.wanted`);

describe('speeds and their signal', () => {
  it('the field turns at 120 f / poles, the plate a little slower', () => {
    near(spindle(), 'spindle.synchronous-speed', 24000);
    near(spindle(), 'spindle.slip', 2.5);
  });
  it('the converter gives what its top frequency makes', () => {
    near(spindle(), 'spindle.top-speed', 24000);
    near(spindle({ converter: 'top: 50 Hz' }), 'spindle.top-speed', 3000);
  });
  it('a signal of half the span asks for half the speed, one of twice the span for no more', () => {
    near(spindle({ out: '0..5 V' }), 'spindle.top-speed', 12000);
    near(spindle({ converter: 'ref: 0..5 V' }), 'spindle.top-speed', 24000);
  });
  it('volts for a thousand turns, and the smallest step of ten bits', () => {
    near(spindle(), 'spindle.volts-per-1000rpm', 10 / 24);
    near(spindle(), 'spindle.speed-step', 24000 / 1024);
  });
});

describe('the loading of the speed signal', () => {
  const loaded = {
    ...spindle(),
    panelCircuits:
      ', speed: { analog-out: [SV, G], does: spindle speed, span: 0..10 V, bits: 10, resistance: 100 ohm }',
    parts: spindle().parts?.replace(
      'span: 0..10 V, bits: 12',
      'span: 0..10 V, bits: 12, resistance: 9.9 kohm',
    ),
  };
  it('is what the divider of both resistances takes away', () =>
    near(loaded as Differences, 'spindle.loading-error', -1));
  it('is not known without them', () =>
    expect(valuesOf(smallMachine(spindle())).byAddress.has('spindle.loading-error')).toBe(false));
});

describe('the wait', () => {
  it('is short by what the ramp takes longer', () => near(spindle(), 'spindle.wait-margin', -3));
  it('goes by the speed that is wanted, not by the top of the converter', () => {
    near(spindle({ more: 'top-speed: 12000 rpm' }), 'spindle.ramp-time', 4);
    near(spindle({ more: 'top-speed: 12000 rpm' }), 'spindle.wait-margin', 1);
  });
  it('is wanted as long as the ramp, in its own steps', () => {
    const short = wanted(spindle({ converter: 'up: 8.2 s' }), 'panel.wait');
    expect(short.value).toBeCloseTo(8.5, 9);
    expect(short.working).toBe('8.2 s, raised to steps of 0.5 s = 8.5 s');
  });
  it('is left alone when it is longer', () =>
    expect(wanted(spindle({ panel: 'wait: 20 s' }), 'panel.wait').value).toBe(20));
});

describe('readings', () => {
  const read = (pairs: string) => spindle({ more: `top-speed: 24000 rpm, readings: [${pairs}]` });
  const nine = read('{ asked: 9000 rpm, seen: 8420 rpm }, { asked: 18000 rpm, seen: 16920 rpm }');
  it('the worst error', () => near(nine, 'spindle.reading-error', (8420 / 9000 - 1) * 100));
  it('the top speed that corrects them', () => {
    const gain = (9000 * 8420 + 18000 * 16920) / (9000 ** 2 + 18000 ** 2);
    near(nine, 'spindle.corrected-top-speed', 24000 * gain);
  });
  it('the error that is left once they are corrected', () => {
    const gain = (9000 * 8420 + 18000 * 16920) / (9000 ** 2 + 18000 ** 2);
    near(nine, 'spindle.reading-error-left', (8420 / (gain * 9000) - 1) * 100); // the farther of the two
    near(read('{ asked: 9000 rpm, seen: 8100 rpm }'), 'spindle.reading-error-left', 0);
  });
  it('a top speed corrected for slip is left alone while the readings agree with it, and no longer', () => {
    const set = (top: string, seen: string) =>
      wanted({ ...read(`{ asked: 9000 rpm, seen: ${seen} }`), panelSet: `top: ${top}` }, 'panel.top').value;
    expect(set('23400 rpm', '9010 rpm')).toBeCloseTo(23400, 6);
    expect(set('23400 rpm', '8700 rpm')).toBeCloseTo(24000, 6);
    expect(set('12000 rpm', '9000 rpm')).toBeCloseTo(24000, 6); // half is no slip
  });
  it('none without readings', () => {
    expect(valuesOf(smallMachine(spindle())).byAddress.has('spindle.reading-error')).toBe(false);
  });
});

describe('what the plate wants of the settings', () => {
  it('base and top frequency, and poles', () => {
    expect(wanted(spindle(), 'vfd.base').value).toBeCloseTo(400, 9);
    expect(wanted(spindle({ converter: 'top: 50 Hz' }), 'vfd.top').value).toBeCloseTo(400, 9);
    expect(wanted(spindle(), 'vfd.poles').value).toBe(2);
  });
  it('never a frequency above the plate', () => {
    const fast = spindle({ converter: 'top: 500 Hz', more: 'top-speed: 36000 rpm' });
    expect(wanted(fast, 'vfd.top').value).toBeCloseTo(400, 9);
  });
  it('a top frequency between the wanted speed and the plate is left, and the controller told of it', () => {
    const slow = spindle({ more: 'top-speed: 18000 rpm' });
    expect(wanted(slow, 'vfd.top').value).toBeCloseTo(400, 9);
    expect(wanted(slow, 'panel.top').value).toBeCloseTo(24000, 6);
  });
  it('the speed at the top of a signal that is too short', () =>
    expect(wanted(spindle({ out: '0..5 V' }), 'panel.top').value).toBeCloseTo(12000, 6));
  it('the reference that fits the signal, or the next wider one', () => {
    expect(wanted(spindle({ out: '0..5 V' }), 'vfd.ref').shown).toBe('0..5 V');
    expect(wanted(spindle({ out: '0..8 V' }), 'vfd.ref').shown).toBe('0..10 V');
    expect(valuesOf(smallMachine(spindle({ out: '0..12 V' }))).byAddress.has('settings.vfd.ref.wanted')).toBe(
      false,
    );
  });
  it('the terminals as the source of a command that is wired', () => {
    const wired = { ...spindle(), wiring: '  - panel.SV -> vfd.AI\n  - panel.G -> vfd.RUN\n' };
    expect(wanted(wired, 'vfd.run-from').word).toBe('terminals');
    expect(valuesOf(smallMachine(spindle())).byAddress.has('settings.vfd.run-from.wanted')).toBe(false);
  });
});

describe('what is missing is said', () => {
  it.each<[string, Differences, string, string]>([
    [
      'poles',
      spindle({ plate: 'plate-frequency: 400 Hz' }),
      'spindle.synchronous-speed',
      "the motor's poles",
    ],
    ['frequency', spindle({ plate: 'poles: 2' }), 'spindle.synchronous-speed', 'the frequency on its plate'],
    [
      'keyed-in speed',
      { ...spindle(), panelSettings: '' },
      'spindle.speed-step',
      'the top speed keyed into the controller',
    ],
  ])('%s', (_, of, address, needs) => expect(needsOf(of, address)).toBe(needs));
});
