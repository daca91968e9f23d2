import type { MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { type Keyed, keyedIn, settingsMeaning } from '../../model/settings.ts';
import type { Circuit } from '../../model/sheet.ts';
import { terminalId } from '../../model/terminal-id.ts';
import { canBeJudged } from '../common/judgeable.ts';

/** How one pair of a drive meets the windings of its motor. */
export interface Phase {
  /** The terminals of the drive. */
  readonly plus: string;
  readonly minus: string;
  readonly meets: 'straight' | 'crossed' | 'mixed' | 'nothing';
  /** Which winding it goes to, in the order of the motor's sheet. */
  readonly winding: number | undefined;
}

/** The wiring between the drive and the motor of an axis. */
export interface MotorPairs {
  readonly axis: string;
  readonly drive: Part;
  readonly motor: Part;
  readonly phases: readonly Phase[];
}

/**
 * The pairs of every axis with one drive and one motor. Where two motors turn one axis, one of them often sits the
 * other way round and has a pair crossed for it.
 */
export function motorPairs(analysis: MachineAnalysis): MotorPairs[] {
  if (!canBeJudged(analysis)) return [];
  const { machine } = analysis;
  return [...machine.axes.values()].flatMap(({ name, drives, motors }): MotorPairs[] => {
    const [drive, motor] = [drives[0], motors[0]].map((each) => machine.parts.get(each?.text ?? ''));
    if (drives.length !== 1 || motors.length !== 1 || !drive?.sheet || !motor?.sheet) return [];
    const windings = circuitsOf(motor, 'winding');
    const phases = circuitsOf(drive, 'phase-out').map((phase) =>
      meet(analysis, drive, phase, motor, windings),
    );
    return [{ axis: name, drive, motor, phases }];
  });
}

function circuitsOf({ sheet }: Part, kind: string): Circuit[] {
  return [...(sheet?.circuits.values() ?? [])].filter((circuit) => circuit.kind === kind);
}

function meet(
  { nets }: MachineAnalysis,
  drive: Part,
  phase: Circuit,
  motor: Part,
  windings: readonly Circuit[],
): Phase {
  const [plus = '', minus = ''] = phase.ends.map((end) => terminalId(drive.name, end.text));
  const reached = [plus, minus].map((terminal) => {
    for (const [winding, { ends }] of windings.entries()) {
      const end = ends.findIndex(
        ({ text }) => nets.netOf(terminalId(motor.name, text)) === nets.netOf(terminal),
      );
      if (end >= 0) return { winding, end };
    }
    return undefined;
  });
  const [a, b] = reached;
  if (!a || !b) return { plus, minus, meets: 'nothing', winding: undefined };
  if (a.winding !== b.winding) return { plus, minus, meets: 'mixed', winding: undefined };
  const meets = a.end === b.end ? 'nothing' : a.end === 0 ? 'straight' : 'crossed';
  return { plus, minus, meets, winding: a.winding };
}

/** Whether the motor turns the other way round: one pair crossed, or the two pairs exchanged, but not both. */
export function isTurned({ phases }: MotorPairs): boolean {
  if (phases.length !== 2 || phases.some(({ winding }) => winding === undefined)) return false;
  const crossed = phases.filter(({ meets }) => meets === 'crossed').length;
  const isExchanged = phases[0]?.winding === 1;
  return (crossed + (isExchanged ? 1 : 0)) % 2 === 1;
}

/** The controller's direction setting for an axis, and whether it differs from what the controller is delivered with. */
export function directionSetting(
  { machine }: MachineAnalysis,
  { axis }: MotorPairs,
): { keyed: Keyed; isTurned: boolean } | undefined {
  for (const part of machine.parts.values()) {
    for (const setting of settingsMeaning(part, 'direction-sense', { axis })) {
      const keyed = keyedIn(machine.file, part, setting);
      if (!keyed || !setting.initial || part.sheet?.partClass !== 'controller') continue;
      return { keyed, isTurned: keyed.scalar.text !== setting.initial.text };
    }
  }
  return undefined;
}
