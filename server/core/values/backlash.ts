import { later, say } from '../language/say.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import type { Fields } from '../shape/fields.ts';
import { DIMENSIONS, sameDimension } from '../units/index.ts';
import { controllerOf, isRotary } from './axis-parts.ts';
import { type Collector, constantInput, figureInput, keyedInput } from './collect.ts';
import type { Input } from './derived.ts';
import { inputFrom } from './input.ts';
import { section } from './piece.ts';
import { newestRecords } from './records-of.ts';
import { takeOver, type Wanted } from './wanted.ts';

/**
 * What the newest measured play of each axis makes of its backlash setting: what is made up for already and what is
 * left beyond it. A correction is worked out only where that exceeds what the measurement may be off by.
 */
export const deriveBacklash = section(addBacklash);

function addBacklash(machine: Machine, out: Collector): void {
  for (const [axis, record] of newestRecords(machine, 'backlash'))
    if (machine.axes.has(axis)) deriveCorrection(machine, axis, record, out);
}

function deriveCorrection(machine: Machine, axis: string, record: Fields, out: Collector): void {
  const address = `axes.${axis}.corrected-backlash`;
  const seen = figureInput(later`play that was measured`, record, 'backlash', machine.file);
  const within = figureInput(later`uncertainty`, record, 'within', machine.file);
  const unit = isRotary(axis) ? 'deg' : 'mm';
  const dimension = DIMENSIONS[isRotary(axis) ? 'angle' : 'length'];
  const given = ['backlash', 'within', 'setting'].flatMap((key) => record.quantity(key) ?? []);
  if (!given.every(({ value }) => sameDimension(value.unit.dimension, dimension))) {
    out.lack(address, say`figures in ${unit} or the like`);
    return;
  }
  if (!seen || !within) {
    if (seen) out.lack(address, say`how far off the measurement may be (within)`);
    return;
  }
  if (Math.abs(seen.value) <= within.value) {
    out.lack(address, say`a play greater than the ${within.shown} that the measurement may be off by`);
    return;
  }
  const then =
    figureInput(later`backlash made up for at the time`, record, 'setting', machine.file) ??
    backlashKeyedIn(machine, axis) ??
    constantInput(later`backlash made up for`, 0, `0 ${unit}`);
  out.add({
    address,
    unit,
    formula: `{${then.name}} + {${seen.name}}`,
    inputs: [then, seen, within],
    si: Math.max(0, then.value + seen.value),
    source: say`what is made up for, and what is left beyond it; it exceeds the uncertainty of the measurement`,
  });
}

/** The backlash that the controller of an axis makes up for now. */
function backlashKeyedIn(machine: Machine, axis: string): Input | undefined {
  const controller = controllerOf(machine, axis);
  return keyedInput(
    later`backlash made up for`,
    controller && keyedInMeaning(machine.file, controller, 'backlash', { axis }),
  );
}

/** What a measured play asks of the backlash setting of an axis; undefined without one. */
export function backlashWanted(axis: string, out: Collector): Wanted | undefined {
  const corrected = out.get(`axes.${axis}.corrected-backlash`);
  return takeOver(corrected && inputFrom(corrected, say`corrected backlash of ${axis}`));
}
