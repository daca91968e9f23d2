import { later, say } from '../language/say.ts';
import type { Part } from '../model/machine.ts';
import type { Machine } from '../model/resolve.ts';
import { keyedInMeaning } from '../model/settings.ts';
import type { Setting } from '../model/sheet.ts';
import { frequencyAtSpeed, synchronousSpeed } from '../motion/spindle.ts';
import { formatQuantity } from '../units/index.ts';
import { type Collector, factInput, figureInput, keyedInput } from './collect.ts';
import type { Input } from './derived.ts';
import { inputFrom } from './input.ts';
import { outputSpan, readSpindle, referenceSpan, type SpindleParts } from './spindle-parts.ts';
import { THEN } from './spindle-readings.ts';
import { takeOver, type Wanted } from './wanted.ts';

/** What the spindle's plate and its wanted speeds ask of the settings of converter and controller. */
export function spindleWanted(
  machine: Machine,
  part: Part,
  setting: Setting,
  out: Collector,
): Wanted | undefined {
  const spindle = readSpindle(machine);
  if (!spindle) return undefined;
  if (part === spindle.converter) return converterWanted(machine, spindle, setting);
  return part === spindle.controller ? controllerWanted(machine, spindle, setting, out) : undefined;
}

function converterWanted(machine: Machine, spindle: SpindleParts, setting: Setting): Wanted | undefined {
  switch (setting.is) {
    case 'poles':
      return takeOver(factInput(later`poles of the spindle`, spindle.motor, 'poles'));
    case 'base-frequency':
      return takeOver(plateFrequency(spindle));
    case 'top-frequency':
      return takeOver(topFrequency(machine, spindle), 'down');
    default:
      return undefined;
  }
}

function controllerWanted(
  machine: Machine,
  spindle: SpindleParts,
  setting: Setting,
  out: Collector,
): Wanted | undefined {
  switch (setting.is) {
    case 'spindle-top-speed':
      return confirmed(topSpeed(machine, spindle), out);
    case 'spindle-wait': {
      const ramp = out.get('spindle.ramp-time');
      const input = ramp && inputFrom(ramp, later`ramp time of the spindle`);
      return (
        input && {
          si: input.value,
          formula: `{${input.name}}`,
          inputs: [input],
          rule: 'least',
          towards: 'nearest',
          source: say`the spindle must be up to speed before the tool enters`,
        }
      );
    }
    default:
      return undefined;
  }
}

function plateFrequency({ motor }: SpindleParts): Input | undefined {
  return factInput(later`plate frequency of the spindle`, motor, 'plate-frequency');
}

/**
 * The frequency of the wanted top speed, and no more than the plate allows. A top frequency between the two is left as
 * it is: the controller then asks for the wanted speed with less than its full signal.
 */
function topFrequency(machine: Machine, spindle: SpindleParts): Input | undefined {
  const plate = plateFrequency(spindle);
  const poles = factInput(later`poles`, spindle.motor, 'poles');
  const speed = figureInput(later`top speed of the spindle`, spindle.fields, 'top-speed', machine.file);
  if (!plate) return undefined;
  if (!poles || !speed) return plate;
  const needed = frequencyAtSpeed(speed.value, poles.value);
  if (needed >= plate.value) return plate;
  const now = keyedInput(
    later`top frequency as set`,
    spindle.converter && keyedInMeaning(machine.file, spindle.converter, 'top-frequency'),
  );
  if (now && now.value >= needed && now.value <= plate.value) return now;
  return { ...speed, value: needed, shown: formatQuantity(needed, 'Hz') };
}

/** Slip and meters make no more; a larger difference has another cause (common practice, no source). */
const GREATEST_CORRECTION = 0.1;

/** What was corrected for slip by measured speeds, and agrees with them, is right as it is. */
function confirmed(computed: Wanted | undefined, out: Collector): Wanted | undefined {
  const measured = out.get('spindle.confirmed-top-speed');
  if (!computed || !measured) return computed;
  // Who noted what the readings replaced has corrected it on purpose, however far.
  const isNoted = measured.inputs.some(({ name }) => name === THEN);
  if (!isNoted && Math.abs(measured.si / computed.si - 1) > GREATEST_CORRECTION) return computed;
  return takeOver(inputFrom(measured, later`top speed confirmed by readings`));
}

/** The speed at the top of the signal, once the converter is set as it should be. */
function topSpeed(machine: Machine, spindle: SpindleParts): Wanted | undefined {
  const given = figureInput(later`top speed of the spindle`, spindle.fields, 'top-speed', machine.file);
  const poles = factInput(later`poles`, spindle.motor, 'poles');
  const frequency = spindle.converter && topFrequency(machine, spindle);
  if (!poles || !frequency) return takeOver(given);
  const [out, reference] = [outputSpan(spindle)?.top, referenceSpan(machine, spindle)?.top];
  const isShort = out !== undefined && reference !== undefined && out.value < reference.value;
  return {
    si: synchronousSpeed(frequency.value, poles.value) * (isShort ? out.value / reference.value : 1),
    formula: `120 × {${frequency.name}} / {poles}${isShort ? ` × {${out.name}} / {${reference.name}}` : ''}`,
    inputs: [frequency, poles, ...(isShort ? [out, reference] : [])],
    rule: 'exact',
    towards: 'nearest',
    source: say`the speed that the converter gives at the top of the signal`,
  };
}
