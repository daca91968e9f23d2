import type { MachineAnalysis } from '../../analysis.ts';
import type { Part } from '../../model/machine.ts';
import { fact } from '../../reuse/fact.ts';
import { axisParts } from '../../values/axis-parts.ts';
import {
  type Basis,
  basisOf,
  inBasis,
  type PhaseCurrent,
  ratedCurrent,
  setCurrent,
} from '../../values/current.ts';
import { isFaulty } from '../common/held-back.ts';
import { isMotorMistaken } from '../wiring/motor-misfits.ts';
import { isDriveMixedUp } from '../wiring/signal-mixups.ts';

/** A drive that puts more current into its motor than that is rated for. */
export interface OverRated {
  readonly axis: string;
  readonly drive: Part;
  readonly motor: Part;
  readonly set: PhaseCurrent & { readonly basis: Basis };
  readonly rated: PhaseCurrent & { readonly basis: Basis };
  /** The rated current in the drive's way of stating it, in A. */
  readonly most: number;
}

/** The drives that are set to more than their motors bear. */
export const overRatedOf = fact('analysis', findOverRated);

/** True for an axis with such a drive: its torque is judged when the current is right. */
export function isOverRated(analysis: MachineAnalysis, axis: string): boolean {
  return overRatedOf(analysis).some((each) => each.axis === axis);
}

function findOverRated(analysis: MachineAnalysis): OverRated[] {
  const { machine } = analysis;
  return [...machine.axes.values()].flatMap((axis) =>
    axisParts(machine, axis).actuators.flatMap(({ drive, motor }): OverRated[] => {
      const rated = motor && ratedCurrent(motor);
      const set = drive && setCurrent(machine, drive);
      const most = rated && drive && inBasis(rated, basisOf(drive))?.value;
      if (!drive || !motor || !set?.basis || !rated?.basis || !most || !set.input.at) return [];
      if (set.input.value <= most * (1 + 1e-9) || isFaulty(analysis, set.input.at)) return [];
      if (isDriveMixedUp(analysis, axis.name, drive.name) || isMotorMistaken(machine, axis.name)) return [];
      return [
        {
          axis: axis.name,
          drive,
          motor,
          set: { ...set, basis: set.basis },
          rated: { ...rated, basis: rated.basis },
          most,
        },
      ];
    }),
  );
}
