import { z } from 'zod';
import { choice, count, nameOf, settingValue, text } from './leaf.ts';
import { MEANINGS } from './meanings.ts';
import { labelled, optional } from './section.ts';

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
