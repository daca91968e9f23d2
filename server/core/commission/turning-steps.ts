import type { MachineAnalysis } from '../analysis.ts';
import { say } from '../language/say.ts';
import { settingsMeaning } from '../model/settings.ts';
import { terminalId } from '../model/terminal-id.ts';
import { partId } from '../summary/place-ids.ts';
import { formatNumber, type Quantity } from '../units/index.ts';
import { showBriefly } from '../values/derived.ts';
import { outputSpan, readSpindle, type SpindleParts } from '../values/spindle-parts.ts';
import { idsOf, makeStep } from './make-step.ts';
import type { Step } from './step.ts';

/** One detent of the handwheel. */
export function handwheelSteps({ machine }: MachineAnalysis, before: readonly Step[]): Step[] {
  const fields = machine.fields.child('handwheel');
  const [part, step] = [fields.text('part')?.value, fields.text('step')?.value];
  if (part === undefined || step === undefined) return [];
  return [
    makeStep({
      id: 'handwheel',
      stage: 'handwheel',
      title: say`The handwheel moves what it says`,
      act: say`Choose an axis and ×1, turn ${part} by ten detents in the plus direction, and back; then the same at ×10.`,
      expected: [
        {
          when: say`ten detents at ×1`,
          shown: say`ten times ${step} towards the far end, and back to the same place`,
        },
      ],
      remedy: say`Half or double: counts per detent or the kind of its signals. The other way: exchange A and B. Steps lost: wiring or supply of the wheel.`,
      place: partId(part),
      after: idsOf(before, 'scales', 'homing'),
    }),
  ];
}

/** The speed signal on a meter, the direction of rotation, the speeds, and the way down. */
export function spindleSteps(analysis: MachineAnalysis, before: readonly Step[]): Step[] {
  const spindle = readSpindle(analysis.machine);
  const top = spindle?.fields.quantity('top-speed')?.value;
  if (!spindle || !top) return [];
  const least = spindle.fields.quantity('least-speed')?.value;
  const place = partId(spindle.motor?.name ?? spindle.converter?.name ?? '');
  const after = [...idsOf(before, 'emergency-stop', 'supplies', 'settings')];
  const signal = signalStep(analysis, spindle, speedsOf(top, least), place, after);
  return [
    ...signal,
    turningStep(spindle, least ?? top, place, [...after, ...idsOf(signal, 'spindle')]),
    speedStep(analysis, spindle, speedsOf(top, least), place),
    stopStep(analysis, top, place),
  ];
}

/** The least speed, one about the middle, and the top speed, in the unit of the top speed. */
function speedsOf(
  top: Quantity,
  least: Quantity | undefined,
): { readonly si: number; readonly shown: string }[] {
  const show = (si: number) => ({
    si,
    shown: `${formatNumber((si / top.value) * top.number, 4)} ${top.unit.symbol}`,
  });
  const bottom = least && least.value < top.value ? least.value : top.value / 3;
  return [bottom, (bottom + top.value) / 2, top.value].map((si) => show(si));
}

function signalStep(
  { values }: MachineAnalysis,
  spindle: SpindleParts,
  speeds: ReturnType<typeof speedsOf>,
  place: string,
  after: readonly string[],
): Step[] {
  const volts = values.byAddress.get('spindle.volts-per-1000rpm');
  const step = values.byAddress.get('spindle.speed-step');
  const bottom = outputSpan(spindle)?.bottom.value ?? 0;
  const { output } = spindle;
  if (!output || !volts) return [];
  return [
    makeStep({
      id: 'spindle-signal',
      stage: 'spindle',
      title: say`The speed signal is right`,
      act: say`With the run signal off, ask for each speed and measure the voltage at the converter’s input.`,
      terminals: (spindle.input ?? output).circuit.ends.map((end) =>
        terminalId((spindle.input ?? output).part.name, end.text),
      ),
      expected: speeds.map(({ si, shown }) => ({
        when: shown,
        shown: `${formatNumber(bottom + (volts.si * si) / RPM_1000, 3)} V`,
        tolerance: say`within 1 % of the span: common practice, no source${step ? say`; its finest step is ${showBriefly(step)}` : ''}`,
      })),
      remedy: say`In proportion: the top speed keyed into the controller. No voltage or the wrong sign: the wires or the ground of the signal.`,
      settings: settingNames(spindle.controller, 'spindle-top-speed'),
      place,
      after,
    }),
  ];
}

/** 1000 rpm in rad/s. */
const RPM_1000 = (1000 * 2 * Math.PI) / 60;

function turningStep(spindle: SpindleParts, speed: Quantity, place: string, after: readonly string[]): Step {
  return makeStep({
    id: 'spindle-direction',
    stage: 'spindle',
    title: say`The spindle turns the right way`,
    act: say`Start it for a second at ${speed.text} and watch the shaft from behind.`,
    expected: [{ when: say`seen from behind`, shown: say`clockwise` }],
    remedy: say`Switch off, wait until the converter is discharged, and exchange two of the three motor wires. No turning: run source and run signal.`,
    settings: settingNames(spindle.converter, 'run-source', 'speed-source'),
    place,
    after,
  });
}

function speedStep(
  { values }: MachineAnalysis,
  spindle: SpindleParts,
  speeds: ReturnType<typeof speedsOf>,
  place: string,
): Step {
  const slip = values.byAddress.get('spindle.slip');
  return makeStep({
    id: 'spindle-speeds',
    stage: 'spindle',
    title: say`The spindle turns as fast as it is told`,
    act: say`Warm it up from the least speed on, then measure each speed without load, with an optical counter.`,
    expected: speeds.map(({ shown }) => ({
      when: 'asked',
      shown,
      ...(slip && { tolerance: say`less the slip, ${showBriefly(slip)} at its plate speed` }),
    })),
    remedy: say`Write the readings; the top speed that corrects them is then worked out.`,
    settings: [
      ...settingNames(spindle.controller, 'spindle-top-speed'),
      ...settingNames(spindle.converter, 'top-frequency', 'base-frequency'),
    ],
    place,
    after: ['spindle-direction'],
    record: `{ asked: ${speeds[1]?.shown ?? '?'}, seen: ? }`,
  });
}

function stopStep({ values }: MachineAnalysis, top: Quantity, place: string): Step {
  const ramp = values.byAddress.get('spindle.ramp-time');
  return makeStep({
    id: 'spindle-stop',
    stage: 'spindle',
    title: say`The spindle is up to speed when cutting starts, and stops in time`,
    act: say`Start it to ${top.text} and time it, stop it and time it, and then stop it with the emergency stop.`,
    expected: [{ when: 'start', shown: ramp ? say`about ${showBriefly(ramp)}` : say`the ramp that is set` }],
    remedy: say`Longer than the controller waits: a longer wait or a shorter ramp. A converter that trips while stopping needs a longer ramp.`,
    cautions: [say`With the emergency stop it may run down for minutes without being braked.`],
    place,
    after: ['spindle-speeds'],
  });
}

function settingNames(part: SpindleParts['controller'], ...meanings: readonly string[]): string[] {
  if (!part) return [];
  return meanings.flatMap((is) => settingsMeaning(part, is)).map(({ name }) => `${part.name}.${name}`);
}
