import { ROTARY_AXES } from '../../../schemas/roles.ts';
import { circuitsDoing, isOutput } from '../circuits/signals.ts';
import { groupBy } from '../group.ts';
import type { AxisEntry, Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { fact } from '../reuse/fact.ts';
import { factMap } from '../reuse/fact-map.ts';
import { isSameList } from '../same-list.ts';

/** A motor of an axis with its drive; either may not be known yet. */
export interface Actuator {
  readonly drive: Part | undefined;
  readonly motor: Part | undefined;
}

/** The parts that move an axis, as far as they are known. */
export interface AxisParts {
  readonly axis: AxisEntry;
  readonly rotary: boolean;
  /** In the order of the text; one for each motor. */
  readonly actuators: readonly Actuator[];
  /** All motors of an axis must move alike, so the first drive and motor stand for its scale and its signals. */
  readonly drive: Part | undefined;
  readonly motor: Part | undefined;
}

/** Finds the parts of an axis. Motors and drives belong together in their order. */
export function axisParts(machine: Machine, axis: AxisEntry): AxisParts {
  const part = (name: string | undefined) => (name === undefined ? undefined : machine.parts.get(name));
  const rotary = isRotary(axis.name);
  const count = Math.max(axis.drives.length, axis.motors.length);
  const actuators = Array.from({ length: count }, (_, index) => ({
    drive: part(axis.drives[index]?.text),
    motor: part(axis.motors[index]?.text),
  }));
  return { axis, rotary, actuators, drive: actuators[0]?.drive, motor: actuators[0]?.motor };
}

/** What a drive moves. */
export interface Move {
  readonly axis: string;
  /** The first of those that move the axis, by which the others go. */
  readonly first: Actuator;
  readonly own: Actuator;
}

const byDrive = factMap<Machine, string, readonly Move[]>(
  'machine',
  (machine) =>
    groupBy(
      [...machine.axes.values()].flatMap((axis): Move[] => {
        const { actuators } = axisParts(machine, axis);
        const [first] = actuators;
        return first ? actuators.map((own) => ({ axis: axis.name, first, own })) : [];
      }),
      ({ own }) => own.drive?.name ?? '',
    ),
  (a, b) => isSameList(a.flatMap(partsIn), b.flatMap(partsIn)),
);

const partsIn = ({ axis, first, own }: Move) => [axis, first.drive, first.motor, own.drive, own.motor];

/** What a drive moves, in the order of the axes. */
export function movesOf(machine: Machine, drive: Part): readonly Move[] {
  return byDrive.get(machine, drive.name) ?? [];
}

/** The names of the axes; the same list while they are the same. */
export const axisNames = fact('machine', (machine: Machine): readonly string[] => [...machine.axes.keys()]);

/** True for the axes of ISO 841 that turn. */
export function isRotary(axis: string): boolean {
  return (ROTARY_AXES as readonly string[]).includes(axis);
}

/** The controller of an axis: the part with an output that makes its pulses. */
export function controllerOf(machine: Machine, axis: string): Part | undefined {
  return pulsingParts(machine).find((part) => circuitsDoing(part, 'pulse', axis).some(isOutput));
}

const pulsingParts = fact('machine', (machine: Machine): readonly Part[] =>
  [...machine.parts.values()].filter((part) => circuitsDoing(part, 'pulse').some(isOutput)),
);
