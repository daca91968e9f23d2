import type { AxisEntry } from '../../model/machine.ts';
import { screwLead } from '../../motion/pulses.ts';
import { keptBy } from '../../reuse/kept-by.ts';
import type { Given } from '../../shape/fields.ts';
import type { Quantity } from '../../units/index.ts';

/** A screw whose lead is not what its pitch and starts make. */
export interface DisputedLead {
  readonly lead: Given<Quantity>;
  readonly pitch: Given<Quantity>;
  readonly starts: Given<number> | undefined;
  /** Pitch × starts, in m; of a pitch alone, that of one start. */
  readonly made: number;
}

/** What is given in inches and in millimetres differs by less than this when both are rounded (no source). */
export const ROUNDING = 1e-3;

/** A pitch alone leaves the starts open: it is disputed only where no number of them makes the lead. */
export const disputedLead = keptBy(({ fields }: AxisEntry): DisputedLead | undefined => {
  const screw = fields.child('screw');
  const [lead, pitch, starts] = [screw.quantity('lead'), screw.quantity('pitch'), screw.count('starts')];
  if (!lead || !pitch || !(lead.value.value > 0) || !(pitch.value.value > 0)) return undefined;
  const likely = Math.max(1, Math.round(lead.value.value / pitch.value.value));
  const made = screwLead(pitch.value.value, starts?.value ?? likely);
  if (!(made > 0) || Math.abs(made / lead.value.value - 1) <= ROUNDING) return undefined;
  return { lead, pitch, starts, made: starts ? made : pitch.value.value };
});
