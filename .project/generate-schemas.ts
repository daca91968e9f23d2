/** Makes the JSON Schemas of the kinds of file from the zod schemas, for editors without a server of ours. */
import { z } from 'zod';
import { machineSchema } from '../schemas/machine.ts';
import { projectSchema } from '../schemas/project.ts';
import { sheetSchema } from '../schemas/sheet.ts';
import { writeGenerated } from './write-generated.ts';

/** The text of the JSON Schemas (draft 2020-12) by their paths; always the same for the same schemas. */
export function generateSchemas(): Map<string, string> {
  return new Map([
    [
      'schemas/machine.schema.json',
      toJson(
        machineSchema,
        'Fettle machine',
        'One machine: its parts, how they are wired, and how it moves.',
      ),
    ],
    [
      'schemas/part.schema.json',
      toJson(sheetSchema, 'Fettle part sheet', 'The facts of one model of part, taken from its datasheet.'),
    ],
    [
      'schemas/project.schema.json',
      toJson(projectSchema, 'Fettle project', 'What holds for every definition in a folder and below it.'),
    ],
  ]);
}

function toJson(schema: z.ZodType, title: string, description: string): string {
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: 'input', target: 'draft-2020-12' });
  return `${JSON.stringify({ $schema, title, description, ...rest }, undefined, 2)}\n`;
}

if (import.meta.main) writeGenerated(generateSchemas());
