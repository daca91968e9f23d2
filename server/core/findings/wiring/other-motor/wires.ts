import type { MachineAnalysis } from '../../../analysis.ts';
import { drivesReaching } from '../../../circuits/windings.ts';
import type { AxisEntry, Part } from '../../../model/machine.ts';
import { terminalId } from '../../../model/terminal-id.ts';
import type { Span } from '../../../syntax/node.ts';
import { endsAt } from '../../common/link-ends.ts';
import type { MotorMisfit } from '../motor-misfits.ts';

/** Whether the drives of two axes are wired to one another's motor. */
export function isExchanged(a: MotorMisfit, b: MotorMisfit): boolean {
  return leadsTo(a, b) && leadsTo(b, a);
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
