import { z } from 'zod';
import { nameOf, settingValue, text } from './leaf.ts';
import { labelled, named, optional } from './section.ts';
import { partFacts } from './sheet.ts';

const part = z.strictObject(
  optional({
    sheet: nameOf('sheet').describe(
      'The part’s sheet: a file beside the machine, `sheets/four-axis-panel.part.yaml`, or one that ships, `generic/supply-24v`.',
    ),
    set: labelled(
      settingValue().describe('The value as it is set on the part, such as `320 /mm` or `high`.'),
    ).describe(
      'What is set on this part, by the names that its sheet gives: `{ microsteps: 8, phase-current: 3.0 A }`.',
    ),
    at: text().describe('Where on the machine it is, such as `cabinet` or `gantry`.'),
    about: text().describe('What it is there for, in a sentence.'),
    part: text().describe('What the part is, where the facts stand here and not in a sheet.'),
    ...partFacts,
  }),
);

/** Every physical part, by a name of the user's own. */
export const parts = named(
  part.describe('One physical part: its sheet or its facts, what is set on it, and where it is.'),
);
