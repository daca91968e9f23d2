import type { MachineAnalysis } from '../../../analysis.ts';
import { drivesReaching } from '../../../circuits/windings.ts';
import type { AxisEntry, Part } from '../../../model/machine.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Span } from '../../../syntax/node.ts';
import { endsAt } from '../../common/link-ends.ts';
import type { MotorMisfit } from '../motor-misfits.ts';

/**
 * The misfits through which a motor was passed round: the drive of each is wired to the motor that the next one names,
 * and that of the last to the first one's; in the order of the misfits. Two of them are an exchange; a misfit that closes no ring stands alone.
 */
export function ringOf(first: MotorMisfit, misfits: readonly MotorMisfit[]): readonly MotorMisfit[] {
  /** By misfit, the one whose drive is wired to its motor, on the shortest way from the first. */
  const before = new Map<MotorMisfit, MotorMisfit>();
  const reached = [first];
  for (const last of reached) {
    if (last !== first && leadsTo(last, first)) return misfits.filter((each) => isOnWay(each, last));
    for (const next of misfits) {
      if (next === first || before.has(next) || !leadsTo(last, next)) continue;
      before.set(next, last);
      reached.push(next);
    }
  }
  return [first];

  function isOnWay(misfit: MotorMisfit, end: MotorMisfit | undefined): boolean {
    return end !== undefined && (end === misfit || isOnWay(misfit, before.get(end)));
  }
}

function leadsTo({ what, axis, reached }: MotorMisfit, other: MotorMisfit): boolean {
  return (
    what === 'motor' &&
    axis !== other.axis &&
    other.motor !== undefined &&
    reached.length === 1 &&
    reached[0] === other.motor.text
  );
}

/** Whether it is the wires that are wrong: they lead to a motor that has its own drive, and the own motor has none. */
export function isLedAstray(analysis: MachineAnalysis, misfit: MotorMisfit): boolean {
  const motor = misfit.motor && analysis.machine.parts.get(misfit.motor.text);
  if (misfit.what !== 'motor' || !motor || drivesReaching(analysis.machine, motor).length > 0) return false;
  return ownerOf(analysis, misfit) !== undefined;
}

/** Another axis that names the motor which is reached, and a drive that is wired to it. */
export function ownerOf({ machine }: MachineAnalysis, misfit: MotorMisfit): AxisEntry | undefined {
  const motor = misfit.what === 'motor' ? machine.parts.get(misfit.reached[0] ?? '') : undefined;
  if (!motor) return undefined;
  const drives = drivesReaching(machine, motor);
  return [...machine.axes.values()].find(
    (axis) =>
      axis !== misfit.axis &&
      axis.motors.some(({ text }) => text === motor.name) &&
      axis.drives.some(({ text }) => text !== misfit.drive?.text && drives.includes(text)),
  );
}

/** Where the first wire ends at the drive that is wired to another motor, or at the motor that is wired to another drive. */
export function wireOf(analysis: MachineAnalysis, { what, drive, motor }: MotorMisfit): Span | undefined {
  const name = (what === 'motor' ? drive : what === 'drive' ? motor : undefined)?.text ?? '';
  for (const terminal of windingEnds(analysis.machine.parts.get(name))) {
    const [end] = endsAt(analysis, terminalId(name, terminal));
    if (end) return end.at;
  }
  return undefined;
}

const WINDINGS: ReadonlySet<string> = new Set(['winding', 'three-phase-in', 'phase-out', 'three-phase-out']);

/** The terminals of a drive or motor between which its windings are. */
export function windingEnds(part: Part | undefined): readonly string[] {
  const circuits = [...(part?.sheet?.circuits.values() ?? [])];
  return circuits.flatMap(({ kind, ends }) => (WINDINGS.has(kind) ? ends.map(({ text }) => text) : []));
}
