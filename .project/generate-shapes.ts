/** Makes the shapes that the program checks definitions by from the zod schemas. */
import { machineSchema } from '../schemas/machine.ts';
import { projectSchema } from '../schemas/project.ts';
import { sheetSchema } from '../schemas/sheet.ts';
import { compileShape } from './shapes/compile.ts';
import { createPacker } from './shapes/pack.ts';
import { writeGenerated } from './write-generated.ts';

/** The text of the table of shapes by its path; always the same for the same schemas. */
export function generateShapes(): Map<string, string> {
  const packer = createPacker();
  const machine = packer.add(compileShape(machineSchema));
  const sheet = packer.add(compileShape(sheetSchema));
  const project = packer.add(compileShape(projectSchema));
  const text = `// Made by .project/generate-shapes.ts from the schemas. Do not edit.
import type { Packed } from './packed.ts';

export const MACHINE_ROW = ${machine};
export const SHEET_ROW = ${sheet};
export const PROJECT_ROW = ${project};

export const TABLE: readonly Packed[] = [
${packer.table.map((packed) => `${JSON.stringify(packed)},`).join('\n')}
];
`;
  return new Map([['server/core/shape/shapes.generated.ts', text]]);
}

if (import.meta.main) writeGenerated(generateShapes());
