import { z } from 'zod';
import { circuits } from './circuits.ts';
import { CLASSES } from './classes.ts';
import { facts } from './facts.ts';
import { choice, count, text } from './leaf.ts';
import { optional } from './section.ts';
import { settings } from './settings.ts';
import { terminals } from './terminals.ts';

const format = count(1, 1).describe('The version of the format, `1`. Left out, it is 1.');

/** The facts of a part, as a sheet or an entry of `parts` gives them. */
export const partFacts = {
  class: choice(CLASSES).describe(
    'What sort of part it is, such as `drive`. It decides what is asked of it.',
  ),
  maker: text().describe('Who makes it. A generic sheet says `none (generic)`.'),
  designator: text().describe(
    'The class letter of IEC 81346-2 that its labels begin with, such as `A` for a controller or `M` for a motor.',
  ),
  source: text().describe(
    'Where the facts were read: the datasheet’s title, revision and page. Say it, so that anybody can check.',
  ),
  terminals: terminals.describe(
    'The terminals in groups, each in the order in which they stand on the part and spelt as printed there.',
  ),
  circuits: circuits.describe(
    'What is inside the part between its terminals, each circuit by a name of your own.',
  ),
  settings: settings.describe('What can be set on the part, by the name or number that it has there.'),
  facts: facts.describe('What is not electrical and cannot be set, such as a motor’s step angle.'),
};

const { class: partClass, ...others } = partFacts;

/** A part sheet: the facts of one model of part. */
export const sheetSchema = z.strictObject({
  part: text().describe('What the part is, as its datasheet calls it, such as `Four-axis panel controller`.'),
  class: partClass,
  ...optional({
    format,
    about: text().describe('What the part is for, in a sentence or two.'),
    ...others,
  }),
});

export { format };
