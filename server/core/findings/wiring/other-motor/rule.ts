import type { Analysis, MachineAnalysis } from '../../../analysis.ts';
import { later, say } from '../../../language/say.ts';
import type { Data } from '../../../problem.ts';
import type { Span } from '../../../syntax/node.ts';
import { withCures } from '../../common/cure.ts';
import { isAnyBlockBroken, isPartInDoubt } from '../../common/held-back.ts';
import { joinWords, word, wordList } from '../../common/words.ts';
import type { Found, Rule } from '../../rule.ts';
import { type MotorMisfit, motorMisfits } from '../motor-misfits.ts';
import { isDriveMixedUp } from '../signal-mixups.ts';
import { exchangeMotors, nameMotors, wireMotor } from './cures.ts';
import { isLedAstray, ownerOf, ringOf, wireOf } from './wires.ts';

export const rule: Rule = {
  code: 'wiring/other-motor',
  severity: 'error',
  title: later`An axis names another motor than its drive is wired to`,
  find: findMisfits,
  say: (data) => {
    const [axis, drive, motor] = [word(data, 'axis'), word(data, 'drive'), word(data, 'motor')];
    const reached = word(data, 'reached');
    switch (data.what) {
      case 'exchanged':
        return say`${drive} moves ${axis} and is wired to ${reached}, and ${word(data, 'otherDrive')} moves ${word(data, 'other')} and is wired to ${motor}: if the wires are led so, each of the two axes moves when the other should; if not, their torque and currents are computed for the wrong motors. Exchange the two motors in the axes, or their wires.`;
      case 'rotated':
        return say`${sayRing(data)}: if the wires are led so, each of the ${wordList(data, 'axes').length} axes moves when another of them should; if not, their torque and currents are computed for the wrong motors. Name the motor in each axis to which its drive is wired, or lead the wires to those that are named.`;
      case 'astray':
        return say`${drive} moves ${axis} and is wired to ${reached}, the motor of ${word(data, 'other')}, which has a drive of its own: two drives feed one motor and can destroy each other, and ${motor} stands still. Wire it to ${motor}.`;
      case 'drive':
        return drive === ''
          ? say`${axis} names ${motor} but not ${reached}, to which it is wired: the axis is computed without that drive. Name ${reached} as well, drives and motors in the same order.`
          : say`${axis} names ${drive} for ${motor}, which is wired to ${reached}: current and torque of the axis are computed for the wrong drive. Name ${reached}, or wire ${motor} to ${drive}.`;
      case 'motor':
        return motor === ''
          ? say`${axis} names ${drive} but not ${reached}, to which it is wired: the axis is computed without that motor. Name ${reached} as well, drives and motors in the same order.`
          : say`${axis} names ${motor} for ${drive}, which is wired to ${reached}: torque, feeds and current of the axis are computed for the wrong motor. Name ${reached}, or wire ${drive} to ${motor}.`;
      case 'lone':
        return say`${axis} names more drives than motors, and there is no motor for ${drive}: the axis is computed without it. Name one for each drive, in the same order.`;
      default:
        return say`${axis} names ${word(data, 'name')} twice: the axis is computed with two of it, and the part that was meant is left out. Name each part once.`;
    }
  },
};

/** `X names motor-y and its drive-x is wired to motor-x`, for each axis of a ring. */
function sayRing(data: Data): string {
  const [drives, motors, reached] = ['drives', 'motors', 'ring'].map((key) => wordList(data, key));
  const clauses = wordList(data, 'axes').map(
    (axis, place) =>
      say`${axis} names ${motors?.[place] ?? ''} and its ${drives?.[place] ?? ''} is wired to ${reached?.[place] ?? ''}`,
  );
  return joinWords(clauses, 'and');
}

function* findMisfits(analysis: Analysis): Iterable<Found> {
  if (analysis.kind !== 'machine' || isAnyBlockBroken(analysis)) return;
  const misfits = motorMisfits(analysis.machine).filter((misfit) => canBeTold(analysis, misfit));
  const told = new Set<MotorMisfit>();
  for (const misfit of misfits) {
    if (told.has(misfit)) continue;
    // Motors that were exchanged, or passed round, are one mistake, told where the first of them is.
    const ring = ringOf(misfit, misfits);
    for (const each of ring) told.add(each);
    const found = describe(analysis, misfit, ring);
    if (found) yield found;
  }
}

/** Not while a name may be meant for another part, nor where the drive has the signals of another axis: that says more. */
function canBeTold(analysis: MachineAnalysis, { axis, reached }: MotorMisfit): boolean {
  const names = [...axis.drives, ...axis.motors].map(({ text }) => text);
  return (
    [...names, ...reached].every((name) => !isPartInDoubt(analysis, name)) &&
    axis.drives.every(({ text }) => !isDriveMixedUp(analysis, axis.name, text))
  );
}

/** @param ring the misfit and those with which its motor was passed round; the misfit alone where it was not */
function describe(
  analysis: MachineAnalysis,
  misfit: MotorMisfit,
  ring: readonly MotorMisfit[],
): Found | undefined {
  const { axis, drive, motor, reached } = misfit;
  const isRing = ring.length > 1;
  const isAstray = !isRing && isLedAstray(analysis, misfit);
  const wire = wireOf(analysis, misfit);
  const at: Span | undefined = isAstray ? wire : placeOf(misfit);
  if (!at) return undefined;
  const [, other] = ring;
  const owner = other?.axis ?? ownerOf(analysis, misfit);
  const data: Data = {
    what: ring.length > 2 ? 'rotated' : isRing ? 'exchanged' : isAstray ? 'astray' : misfit.what,
    axis: axis.name,
    ...(drive && { drive: drive.text }),
    ...(motor && { motor: motor.text }),
    ...(misfit.what === 'twice' && { name: (drive ?? motor)?.text ?? '' }),
    ...(reached.length > 0 && { reached }),
    ...(owner && { other: owner.name }),
    ...(other?.drive && { otherDrive: other.drive.text }),
    ...(ring.length > 2 && {
      axes: ring.map((each) => each.axis.name),
      drives: ring.map((each) => each.drive?.text ?? ''),
      motors: ring.map((each) => each.motor?.text ?? ''),
      ring: ring.flatMap((each) => each.reached),
    }),
  };
  const related = [
    ...(wire && !isAstray ? [{ at: wire, note: say`wired here` }] : []),
    ...(isAstray && motor ? [{ at: motor, note: say`the motor of ${axis.name}` }] : []),
    ...ring
      .slice(1)
      .flatMap((each) => (each.motor ? [{ at: each.motor, note: say`the motor of ${each.axis.name}` }] : [])),
  ];
  const axes = new Set(ring.map((each) => each.axis.name));
  return withCures(
    analysis,
    { at, data, related },
    () =>
      isRing
        ? exchangeMotors(analysis, ring)
        : [isAstray ? wireMotor(analysis, misfit) : nameMotors(analysis, misfit)],
    (after) => motorMisfits(after.machine).every((each) => !axes.has(each.axis.name)),
  );
}

/** The name that is wrong, or else the one beside which another is missing. */
function placeOf({ what, drive, motor }: MotorMisfit): Span | undefined {
  return what === 'motor' ? (motor ?? drive) : (drive ?? motor);
}
