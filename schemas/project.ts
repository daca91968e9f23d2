import { z } from 'zod';
import { conventions } from './conventions.ts';
import { choice, text } from './leaf.ts';
import { labelled, optional } from './section.ts';

const severity = choice({
  error: 'It cannot work, or can damage a part.',
  warning: 'It works until something changes.',
  hint: 'Advice.',
});

/** What holds for every definition in a folder and the folders in it: the file `.fettle.yaml`. */
export const projectSchema = z.strictObject(
  optional({
    about: text().describe('What the project is, in a sentence or two.'),
    severities: labelled(
      severity.describe('How much the finding, or every finding of the family, matters in this project.'),
    ).describe(
      'How much findings matter here, by their code, `wire/drop`, or by their family, `wire`. The code goes before its family.',
    ),
    silence: labelled(text().describe('Why it is silenced.')).describe(
      'Findings that are not shown, by code or family, each with the reason: `{ wire/drop: the loom stays }`. Summary and reports tell them all the same.',
    ),
    conventions: conventions.describe(
      'The standards that the machines of this project keep to, where they do not say it themselves.',
    ),
    sheets: z
      .array(text())
      .describe(
        'Folders in which part sheets are sought that are not beside the machine, `[../sheets]`, from this file.',
      ),
  }),
);
