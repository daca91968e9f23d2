import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { microstepTorque, standstillTorque } from '../motion/torque.ts';
import { cornerSpeed } from '../motion/winding.ts';
import type { Actuator, AxisParts } from './axis-parts.ts';
import { stepsInput } from './axis-scale.ts';
import { type Collector, constantInput, factInput, listNeeds } from './collect.ts';
import { inBasis, ratedCurrent, setCurrent, windingFigure } from './current.ts';
import type { Derived, Input, Recipe } from './derived.ts';
import { inputFrom } from './input.ts';

/** What the motors of an axis can do together. */
export interface AxisMotor {
  readonly standstill: Derived | undefined;
  readonly corner: Derived | undefined;
}

/** Torque at standstill, the speed from which it falls, and what holds the axis within one microstep. */
export function deriveMotor(
  machine: Machine,
  parts: AxisParts,
  perTurn: Derived | undefined,
  out: Collector,
): AxisMotor {
  const standstill = deriveStandstill(machine, parts, out);
  const corner = deriveCorner(machine, parts, out);
  deriveMicrostep(parts, standstill, perTurn, out);
  return { standstill, corner };
}

/** The torques of two motors on one axis add up. */
function deriveStandstill(machine: Machine, parts: AxisParts, out: Collector): Derived | undefined {
  const address = `axes.${parts.axis.name}.standstill-torque`;
  const shares = parts.actuators.map((actuator) => standstillOf(machine, actuator));
  const [lacking] = shares.filter((share) => typeof share === 'string');
  if (shares.length === 0 || lacking !== undefined) {
    out.lack(address, lacking ?? 'a motor');
    return undefined;
  }
  const known = shares.filter((share) => typeof share !== 'string');
  return out.add({
    address,
    unit: 'N.m',
    formula: known.map((share) => share.formula).join(' + '),
    inputs: known.flatMap((share) => share.inputs),
    si: known.reduce((sum, share) => sum + share.si, 0),
    source: say`common practice: torque in proportion to current, and no more than the holding torque`,
  });
}

type Share = Pick<Recipe, 'formula' | 'inputs' | 'si'>;

/** The torque of one motor, or in words what is missing for it. */
function standstillOf(machine: Machine, { drive, motor }: Actuator): Share | string {
  if (!drive || !motor)
    return listNeeds([
      [drive, say`the drive`],
      [motor, say`the motor`],
    ]);
  const holding = factInput(say`holding torque of ${motor.name}`, motor, 'holding-torque');
  const rated = ratedCurrent(motor);
  const keyed = setCurrent(machine, drive);
  const set = keyed && inBasis(keyed, rated?.basis);
  if (!holding || !rated || !set)
    return listNeeds([
      [holding, say`the holding torque of ${motor.name}`],
      [rated, say`the rated current of ${motor.name}`],
      [keyed, say`the phase current that ${drive.name} is set to`],
      [rated && keyed ? set : 0, say`whether ${drive.name} and ${motor.name} state peak or RMS current`],
    ]);
  const isFull = set.value >= rated.input.value;
  return {
    formula: isFull ? `{${holding.name}}` : `{${holding.name}} × {${set.name}} / {${rated.input.name}}`,
    inputs: [holding, set, rated.input],
    si: standstillTorque(holding.value, set.value, rated.input.value),
  };
}

/** The lowest corner speed counts where two motors differ, since they must turn alike. */
function deriveCorner(machine: Machine, parts: AxisParts, out: Collector): Derived | undefined {
  const address = `axes.${parts.axis.name}.motor-corner-speed`;
  const corners = parts.actuators.map((actuator) => cornerOf(machine, actuator, out));
  const [lacking] = corners.filter((corner) => typeof corner === 'string');
  if (lacking !== undefined) {
    out.lack(address, lacking);
    return undefined;
  }
  const known = corners.filter((corner) => typeof corner !== 'string');
  const [least] = known.sort((a, b) => a.si - b.si);
  if (!least) {
    out.lack(address, 'a motor');
    return undefined;
  }
  return out.add({
    address,
    unit: 'rpm',
    ...least,
    source: say`common practice: the supply turns the current round within one full step`,
  });
}

function cornerOf(machine: Machine, { drive, motor }: Actuator, out: Collector): Share | string {
  if (!drive || !motor)
    return listNeeds([
      [drive, say`the drive`],
      [motor, say`the motor`],
    ]);
  const supply = out.get(`parts.${drive.name}.supply-voltage`);
  const inductance = windingFigure(say`inductance of ${motor.name}`, motor, 'inductance');
  const steps = stepsInput(motor);
  const keyed = setCurrent(machine, drive);
  const current = keyed && inBasis(keyed, 'peak');
  if (!supply || !inductance || !steps || !current)
    return listNeeds([
      [supply, say`the supply of ${drive.name}`],
      [inductance, say`the inductance of ${motor.name}`],
      [steps, say`the step angle of ${motor.name}`],
      [keyed, say`the phase current that ${drive.name} is set to`],
      [keyed ? current : 0, say`whether ${drive.name} states peak or RMS current`],
    ]);
  const voltage = inputFrom(supply, say`supply voltage of ${drive.name}`);
  return {
    formula: `{${voltage.name}} / (2 × {${inductance.name}} × {${current.name}} × {${steps.name}})`,
    inputs: [voltage, inductance, current, steps],
    si: cornerSpeed(voltage.value, inductance.value, current.value, steps.value),
  };
}

function deriveMicrostep(
  parts: AxisParts,
  standstill: Derived | undefined,
  perTurn: Derived | undefined,
  out: Collector,
): void {
  const address = `axes.${parts.axis.name}.microstep-torque`;
  const steps = stepsInput(parts.motor);
  if (!standstill || !perTurn || !steps) {
    out.lack(
      address,
      listNeeds([
        [standstill, say`the torque at standstill`],
        [perTurn, say`pulses per turn`],
        [steps, say`the motor's step angle`],
      ]),
    );
    return;
  }
  const count = perTurn.si / steps.value;
  const microsteps: Input = {
    ...constantInput(later`microsteps`, count, String(count)),
    address: perTurn.address,
  };
  const torque = inputFrom(standstill, later`torque at standstill`);
  out.add({
    address,
    unit: 'N.m',
    formula: '{torque at standstill} × sin(90° / {microsteps})',
    inputs: [torque, microsteps],
    si: microstepTorque(torque.value, count),
    source: say`Machine Design, “Microstepping: Myths and Realities”`,
  });
}
