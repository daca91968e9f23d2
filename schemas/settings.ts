import { z } from 'zod';
import { choice, count, nameOf, settingValue, text } from './leaf.ts';
import { labelled, optional } from './section.ts';

/** What a setting can mean: the words of `is:`. */
export const MEANINGS = {
  'pulses-per-length': 'Pulses for one millimetre, or one degree on a rotary axis.',
  'direction-sense': 'Which level of the direction signal moves the axis in its plus direction.',
  'direction-lead': 'How long before a pulse the direction signal is steady.',
  'pulse-width': 'How long one pulse lasts.',
  'input-use': 'Whether the input named by `circuit` is looked at.',
  'input-sense': 'Whether the input named by `circuit` acts when it is electrically on or when it is off.',
  'top-feed': 'The fastest feed that the controller gives.',
  acceleration: 'How quickly the controller lets the axis gain speed.',
  travel: 'How far the controller lets the axis move.',
  'home-feed': 'How fast the axis looks for its home switch.',
  'home-creep': 'How slowly it comes back to the switching point.',
  backlash: 'The play that the controller makes up for when the axis turns round.',
  'spindle-top-speed': 'The speed at which the speed signal is at its top.',
  'spindle-wait': 'How long the controller waits for the spindle to come up to speed.',
  'spindle-use': 'Whether the controller runs the spindle.',
  'handwheel-step': 'How far one detent of the handwheel moves the axis.',
  'handwheel-kind': 'Which kind of handwheel signal the controller expects.',
  microsteps: 'Into how many parts the drive divides one full step.',
  'pulses-per-turn': 'How many pulses turn the motor once.',
  'phase-current': 'The current that the drive puts into the motor.',
  contact: 'The rest state of the contact named by `circuit`: open or closed.',
  'output-voltage': 'The voltage to which a supply is trimmed.',
  'base-frequency': 'The frequency at which the converter gives its full voltage.',
  'top-frequency': 'The highest frequency that the converter gives.',
  'ramp-up': 'How long the converter takes from standstill to its top frequency.',
  'ramp-down': 'How long the converter takes from its top frequency to standstill.',
  poles: 'How many poles the converter believes the motor to have.',
  'speed-reference': 'The voltage at which the converter gives its top frequency.',
  'run-source': 'From where the converter takes its run command: its panel or its terminals.',
  'speed-source': 'From where the converter takes its speed: its panel or its terminals.',
  none: 'Kept for the record; nothing is computed from it.',
} as const;

const setting = z.strictObject(
  optional({
    is: choice(MEANINGS).describe(
      'What the setting means, such as `pulses-per-length`. A setting without it is documented and carried, never computed.',
    ),
    about: text().describe('What the datasheet says about it, in a line.'),
    axis: nameOf('axis').describe('The axis that the setting belongs to, such as `X`.'),
    circuit: nameOf('circuit').describe(
      'The circuit of this part that the setting acts on, by its name in `circuits`, such as `x-far`.',
    ),
    unit: text().describe(
      'The unit in which the part shows it, such as `/mm` or `ns`. The part shows the number alone.',
    ),
    decimals: count(0, 12).describe(
      'How many decimals the part shows, such as `3`. Values are rounded to them.',
    ),
    span: settingValue().describe('The smallest and largest value that it takes, such as `100..20000 ns`.'),
    step: settingValue().describe('The smallest change that it takes, such as `100 ns`.'),
    choices: z
      .array(settingValue())
      .describe('The values that it takes, where these are few, in the part’s own words: `[low, high]`.'),
    default: settingValue().describe('Its value as the maker delivers it, such as `1000 ns` or `low`.'),
  }),
);

setting.register(z.globalRegistry, { id: 'setting' });

/** What can be set on the part, by the name or number that it has there. */
export const settings = labelled(
  setting.describe('One setting, by the name or number that it has on the part.'),
);
