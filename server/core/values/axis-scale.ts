import { ROTARY_AXES } from '../../../schemas/roles.ts';
import { circuitsDoing, isOutput } from '../circuits/signals.ts';
import type { AxisEntry, Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning, numberKeyed } from '../model/settings.ts';
import {
  beltTravel,
  pulsesPerTravel,
  pulsesPerTurn,
  rackTravel,
  resolution,
  screwLead,
  stepsPerTurn,
  wormTravel,
} from '../motion/pulses.ts';
import type { Fields } from '../shape/fields.ts';
import { type Collector, constantInput, figureInput, inputOf } from './collect.ts';
import { type Derived, type Input, inputFrom } from './derived.ts';

/** The drive train of an axis, as far as it is known. */
export interface AxisParts {
  readonly axis: AxisEntry;
  readonly drive: Part | undefined;
  readonly motor: Part | undefined;
  readonly rotary: boolean;
}

/** How an axis moves per pulse. */
export interface AxisScale {
  readonly pulsesPerTurn: Derived | undefined;
  readonly pulsesPerLength: Derived | undefined;
  readonly travelPerTurn: Input | undefined;
  readonly gearing: Input;
}

const TURN = 2 * Math.PI;

/** Finds the parts of an axis. With two motors on one axis both must move alike, so the first one stands for both. */
export function axisParts(machine: Machine, axis: AxisEntry): AxisParts {
  const part = (name: string | undefined) => (name === undefined ? undefined : machine.parts.get(name));
  const rotary = (ROTARY_AXES as readonly string[]).includes(axis.name);
  return { axis, rotary, drive: part(axis.drives[0]?.text), motor: part(axis.motors[0]?.text) };
}

/** Pulses per turn and per length, and the resolution. */
export function deriveScale(machine: Machine, parts: AxisParts, out: Collector): AxisScale {
  const base = `axes.${parts.axis.name}`;
  const perTurn = derivePulsesPerTurn(machine, parts, out);
  const travel = travelPerTurn(parts, machine.file);
  const gearing = gearingOf(parts.axis.fields, machine.file);
  const unit = parts.rotary ? 'deg' : 'mm';
  if (!perTurn || !travel) {
    const needs = [perTurn ? [] : ['pulses per turn'], travel ? [] : ['a screw, belt, rack or worm']]
      .flat()
      .join(' and ');
    for (const name of ['pulses-per-length', 'resolution']) out.lack(`${base}.${name}`, needs);
    return { pulsesPerTurn: perTurn, pulsesPerLength: undefined, travelPerTurn: travel, gearing };
  }
  const ppt = inputFrom(perTurn, 'pulses per turn');
  const perLength = out.add({
    address: `${base}.pulses-per-length`,
    unit: `/${unit}`,
    formula: `{pulses per turn} × {gearing} / {${travel.name}}`,
    inputs: [ppt, gearing, travel],
    si: pulsesPerTravel(ppt.value, gearing.value, travel.value),
    source: 'arithmetic of the drive train',
  });
  if (perLength) {
    const pulses = inputFrom(perLength, parts.rotary ? 'pulses per degree' : 'pulses per length');
    out.add({
      address: `${base}.resolution`,
      unit,
      formula: `1 / {${pulses.name}}`,
      inputs: [pulses],
      si: resolution(pulses.value),
      source: 'arithmetic of the drive train',
    });
  }
  return { pulsesPerTurn: perTurn, pulsesPerLength: perLength, travelPerTurn: travel, gearing };
}

function derivePulsesPerTurn(
  machine: Machine,
  { axis, drive, motor }: AxisParts,
  out: Collector,
): Derived | undefined {
  const address = `axes.${axis.name}.pulses-per-turn`;
  const direct = drive && keyedInMeaning(machine.file, drive, 'pulses-per-turn');
  const count = direct && numberKeyed(direct);
  if (direct && count !== undefined) {
    const input: Input = {
      name: 'pulses per turn as set on the drive',
      value: count,
      shown: direct.scalar.text,
      file: direct.file,
      at: direct.scalar,
    };
    return out.add({
      address,
      unit: '1',
      formula: '{pulses per turn as set on the drive}',
      inputs: [input],
      si: count,
      source: 'setting of the drive',
    });
  }
  const steps = motor && stepsInput(motor);
  const keyed = drive && keyedInMeaning(machine.file, drive, 'microsteps');
  const microsteps = keyed && numberKeyed(keyed);
  if (!steps || !keyed || microsteps === undefined) {
    const needs = [
      steps ? [] : ["the motor's step angle"],
      microsteps === undefined ? ["the drive's microsteps"] : [],
    ].flat();
    out.lack(address, needs.join(' and '));
    return undefined;
  }
  const input: Input = {
    name: 'microsteps',
    value: microsteps,
    shown: keyed.scalar.text,
    file: keyed.file,
    at: keyed.scalar,
  };
  return out.add({
    address,
    unit: '1',
    formula: '{steps per turn} × {microsteps}',
    inputs: [steps, input],
    si: pulsesPerTurn(steps.value, microsteps),
    source: 'definition of microsteps; steps per turn = 360° / step angle',
  });
}

function stepsInput(motor: Part): Input | undefined {
  const angle = motor.sheet?.facts.quantity('step-angle');
  if (!angle || !motor.sheet) return undefined;
  const steps = stepsPerTurn(angle.value.value);
  return Number.isFinite(steps)
    ? { ...inputOf('steps per turn', angle, motor.sheet.file), value: steps, shown: String(steps) }
    : undefined;
}

/** How far the axis moves for one turn of what is driven: m, or rad for a rotary axis. */
function travelPerTurn({ axis, rotary }: AxisParts, file: string): Input | undefined {
  const { fields } = axis;
  const screw = fields.child('screw');
  const lead = figureInput('screw lead', screw, 'lead', file);
  if (lead) return lead;
  const pitch = figureInput('pitch', screw, 'pitch', file);
  const starts = figureInput('starts', screw, 'starts', file);
  if (pitch)
    return made(
      'screw lead',
      screwLead(pitch.value, starts?.value ?? 1),
      `(${pitch.shown} × ${starts?.shown ?? 1})`,
      pitch,
    );
  const belt = fields.child('belt');
  const [beltPitch, beltTeeth] = [
    figureInput('pitch', belt, 'pitch', file),
    figureInput('teeth', belt, 'teeth', file),
  ];
  if (beltPitch && beltTeeth) {
    return made(
      'belt pitch × teeth',
      beltTravel(beltPitch.value, beltTeeth.value),
      `(${beltPitch.shown} × ${beltTeeth.shown})`,
      beltPitch,
    );
  }
  const rack = fields.child('rack');
  const [module, rackTeeth] = [
    figureInput('module', rack, 'module', file),
    figureInput('teeth', rack, 'teeth', file),
  ];
  if (module && rackTeeth) {
    return made(
      'π × module × teeth',
      rackTravel(module.value, rackTeeth.value),
      `(π × ${module.shown} × ${rackTeeth.shown})`,
      module,
    );
  }
  const worm = fields.ratio('worm');
  if (worm) {
    const input = inputOf(
      '360° / worm ratio',
      { ...worm, value: wormTravel(worm.value.left / worm.value.right) },
      file,
    );
    return { ...input, shown: `(360 deg / ${worm.text})` };
  }
  return rotary ? constantInput('one turn', TURN, '360 deg') : undefined;
}

function made(name: string, value: number, shown: string, from: Input): Input | undefined {
  return Number.isFinite(value) ? { ...from, name, value, shown } : undefined;
}

function gearingOf(fields: Fields, file: string): Input {
  const ratio = fields.ratio('gearing');
  if (!ratio) return constantInput('gearing', 1, '1');
  const value = ratio.value.left / ratio.value.right;
  return {
    ...inputOf('gearing', { ...ratio, value }, file),
    shown: ratio.value.right === 1 ? String(ratio.value.left) : `(${ratio.text.replace(/\s*:\s*/, ' / ')})`,
  };
}

/** The controller of an axis: the part with an output that makes its pulses. */
export function controllerOf(machine: Machine, axis: string): Part | undefined {
  return [...machine.parts.values()].find((part) => circuitsDoing(part, 'pulse', axis).some(isOutput));
}
