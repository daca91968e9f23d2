import { drivesReaching, motorsReachedBy } from '../../circuits/windings.ts';
import type { AxisEntry, Part } from '../../model/machine.ts';
import type { Machine } from '../../model/resolve.ts';
import { fact } from '../../reuse/fact.ts';
import type { Scalar } from '../../syntax/node.ts';

/** A drive and a motor of an axis that do not belong together by the wiring. */
export interface MotorMisfit {
  readonly axis: AxisEntry;
  /**
   * - `motor`: a drive is wired to a motor that the axis does not name, and to none that it names;
   * - `drive`: a motor is wired to a drive that the axis does not name, and to none that it names;
   * - `lone`: an axis names more drives than motors, and the wiring does not say which motor is missing;
   * - `twice`: an axis names the same part twice, and the wiring does not say which was meant.
   */
  readonly what: 'motor' | 'drive' | 'lone' | 'twice';
  /** Where they are named; undefined where the axis names none. */
  readonly drive: Scalar | undefined;
  readonly motor: Scalar | undefined;
  /** What the drive, or else the motor, is wired to. */
  readonly reached: readonly string[];
}

const NONE: readonly MotorMisfit[] = [];

/** The misfits of all axes, in their order. */
export const motorMisfits = fact('machine', (machine: Machine): readonly MotorMisfit[] => {
  const found = [...machine.axes.values()].flatMap((axis) => misfitsOf(machine, axis));
  return found.length === 0 ? NONE : found;
});

/** Whether an axis names a motor that its drive does not turn: what is computed of it follows from that. */
export function isMotorMistaken(machine: Machine, axis: string): boolean {
  return motorMisfits(machine).some((misfit) => misfit.axis.name === axis);
}

function misfitsOf(machine: Machine, axis: AxisEntry): readonly MotorMisfit[] {
  const [drives, motors] = [partsOf(machine, axis.drives), partsOf(machine, axis.motors)];
  if (!drives || !motors) return NONE;
  const reachedBy = new Map(drives.map((drive) => [drive.name, motorsReachedBy(machine, drive)]));
  const isMet = (drive: Scalar | undefined, motor: Scalar | undefined) =>
    drive !== undefined && motor !== undefined && reachedBy.get(drive.text)?.includes(motor.text) === true;
  // Motors in parallel, and windings that contacts switch over, have one drive between them.
  const isStray = (drive: Scalar) =>
    reachedBy.get(drive.text)?.length !== 0 && !axis.motors.some((motor) => isMet(drive, motor));
  const isLeft = (motor: Scalar) => !axis.drives.some((drive) => isMet(drive, motor));

  const found: MotorMisfit[] = [];
  const wrongMotors = inDoubt(axis.motors, (motor, place) => !isMet(axis.drives[place], motor), isLeft);
  for (const [place, drive] of axis.drives.entries()) {
    if (isRepeated(axis.drives, place) || !isStray(drive)) continue;
    const motor = takeFrom(wrongMotors, axis.motors[place]);
    found.push({ axis, what: 'motor', drive, motor, reached: reachedBy.get(drive.text) ?? [] });
  }
  const wrongDrives = inDoubt(
    axis.drives,
    (drive, place) => !isMet(drive, axis.motors[place]),
    (drive) => reachedBy.get(drive.text)?.length === 0,
  );
  for (const [place, motor] of axis.motors.entries()) {
    const part = motors[place];
    const isTold = found.some((misfit) => misfit.motor === motor);
    if (!part || isTold || isRepeated(axis.motors, place) || !isLeft(motor)) continue;
    const reached = drivesReaching(machine, part);
    if (reached.length === 0) continue;
    found.push({ axis, what: 'drive', drive: takeFrom(wrongDrives, axis.drives[place]), motor, reached });
  }
  return found.length > 0 ? found : misfitsOfLists(axis);
}

/** What is wrong with the lists of an axis whatever is wired. */
function misfitsOfLists(axis: AxisEntry): readonly MotorMisfit[] {
  const { drives, motors } = axis;
  const twice = [
    ...drives.filter((_, place) => isRepeated(drives, place)).map((drive) => ({ drive, motor: undefined })),
    ...motors.filter((_, place) => isRepeated(motors, place)).map((motor) => ({ drive: undefined, motor })),
  ];
  if (twice.length > 0) return twice.map((each) => ({ axis, what: 'twice', ...each, reached: [] }));
  return drives
    .slice(motors.length)
    .map((drive) => ({ axis, what: 'lone', drive, motor: undefined, reached: [] }));
}

/** The parts that an axis names; undefined where it names none, or one of which nothing is known. */
function partsOf(machine: Machine, names: readonly Scalar[]): readonly Part[] | undefined {
  const parts = names.flatMap(({ text }) => machine.parts.get(text) ?? []);
  const isKnown = names.length > 0 && parts.length === names.length && parts.every(({ sheet }) => sheet);
  return isKnown ? parts : undefined;
}

/** The names of a list that can be wrong: those that nothing else of the axis goes with, and those that stand there twice. */
function inDoubt(
  names: readonly Scalar[],
  isOutOfPlace: (name: Scalar, place: number) => boolean,
  isLeft: (name: Scalar) => boolean,
): Scalar[] {
  const isTwice = (name: Scalar) => names.some((other) => other !== name && other.text === name.text);
  return names.filter((name, place) => isLeft(name) || (isTwice(name) && isOutOfPlace(name, place)));
}

/** Takes a name out of a list: the one that is looked for, or else the first. */
function takeFrom(names: Scalar[], wanted: Scalar | undefined): Scalar | undefined {
  const place = Math.max(0, wanted ? names.indexOf(wanted) : 0);
  return names.splice(place, 1)[0];
}

/** Whether the same name stands further up in a list. */
function isRepeated(names: readonly Scalar[], place: number): boolean {
  return names.findIndex(({ text }) => text === names[place]?.text) < place;
}
