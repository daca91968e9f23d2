import { later, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import { pulsesPerTravel, pulsesPerTurn, resolution, stepsPerTurn } from '../motion/pulses.ts';
import type { Carrier } from './axis-carrier.ts';
import type { AxisParts } from './axis-parts.ts';
import { type Collector, inputOf, keyedInput, listNeeds } from './collect.ts';
import type { Derived, Input } from './derived.ts';
import { inputFrom } from './input.ts';

/** How an axis moves per pulse. */
export interface AxisScale {
  readonly pulsesPerTurn: Derived | undefined;
  readonly pulsesPerLength: Derived | undefined;
}

/** Pulses per turn and per length, and the resolution. */
export function deriveScale(
  machine: Machine,
  parts: AxisParts,
  { travel, gearing }: Carrier,
  out: Collector,
): AxisScale {
  const base = `axes.${parts.axis.name}`;
  const perTurn = derivePulsesPerTurn(machine, parts, out);
  const unit = parts.rotary ? 'deg' : 'mm';
  if (!perTurn || !travel) {
    const needs = listNeeds([
      [perTurn, say`pulses per turn`],
      [travel, say`a screw, belt, rack or worm`],
    ]);
    for (const name of ['pulses-per-length', 'resolution']) out.lack(`${base}.${name}`, needs);
    return { pulsesPerTurn: perTurn, pulsesPerLength: undefined };
  }
  const ppt = inputFrom(perTurn, later`pulses per turn`);
  const perLength = out.add({
    address: `${base}.pulses-per-length`,
    unit: `/${unit}`,
    formula: `{pulses per turn} × {gearing} / {${travel.name}}`,
    inputs: [ppt, gearing, travel],
    si: pulsesPerTravel(ppt.value, gearing.value, travel.value),
    source: say`arithmetic of the drive train`,
  });
  if (perLength) {
    const pulses = inputFrom(perLength, parts.rotary ? later`pulses per degree` : later`pulses per length`);
    out.add({
      address: `${base}.resolution`,
      unit,
      formula: `1 / {${pulses.name}}`,
      inputs: [pulses],
      si: resolution(pulses.value),
      source: say`arithmetic of the drive train`,
    });
  }
  return { pulsesPerTurn: perTurn, pulsesPerLength: perLength };
}

function derivePulsesPerTurn(
  machine: Machine,
  { axis, drive, motor }: AxisParts,
  out: Collector,
): Derived | undefined {
  const address = `axes.${axis.name}.pulses-per-turn`;
  const direct = keyedInput(
    later`pulses per turn as set on the drive`,
    drive && keyedInMeaning(machine.file, drive, 'pulses-per-turn'),
  );
  if (direct) {
    return out.add({
      address,
      unit: '1',
      formula: `{${direct.name}}`,
      inputs: [direct],
      si: direct.value,
      source: say`setting of the drive`,
    });
  }
  const steps = stepsInput(motor);
  const microsteps = keyedInput(
    later`microsteps`,
    drive && keyedInMeaning(machine.file, drive, 'microsteps'),
  );
  if (!steps || !microsteps) {
    out.lack(
      address,
      listNeeds([
        [steps, say`the motor's step angle`],
        [microsteps, say`the drive's microsteps`],
      ]),
    );
    return undefined;
  }
  return out.add({
    address,
    unit: '1',
    formula: '{steps per turn} × {microsteps}',
    inputs: [steps, microsteps],
    si: pulsesPerTurn(steps.value, microsteps.value),
    source: say`definition of microsteps; steps per turn = 360° / step angle`,
  });
}

/** Full steps in one turn of a motor; undefined when its sheet does not give the step angle. */
export function stepsInput(motor: Part | undefined): Input | undefined {
  const angle = motor?.sheet?.facts.quantity('step-angle');
  if (!angle || !motor?.sheet) return undefined;
  const steps = stepsPerTurn(angle.value.value);
  return Number.isFinite(steps)
    ? { ...inputOf(later`steps per turn`, angle, motor.sheet.file), value: steps, shown: String(steps) }
    : undefined;
}
