import type { MachineAnalysis } from '../../../analysis.ts';
import { say } from '../../../language/say.ts';
import type { Part } from '../../../model/machine.ts';
import type { Fix } from '../../../problem.ts';
import { writeSheet } from '../../../start/sheet.ts';
import type { FileId } from '../../../world.ts';
import { type Mention, mentionsOf, terminalMentions } from '../references.ts';

const CLASSES: Readonly<Partial<Record<Mention['use'], string>>> = {
  drive: 'drive',
  motor: 'motor',
  switch: 'switch',
  handwheel: 'handwheel',
};

/** Makes the sheet that is missing, with the terminals that the machine wires already. */
export function createSheet({ machine, world }: MachineAnalysis, parts: readonly Part[], file: FileId): Fix {
  const names = new Set(parts.map(({ name }) => name));
  const terminals = new Set(
    terminalMentions(machine, (part) => names.has(part)).map(({ terminal }) => terminal),
  );
  const uses = mentionsOf(machine).flatMap(({ name, use }) => (names.has(name) ? (CLASSES[use] ?? []) : []));
  const text = writeSheet({
    part: world.nameOf(file).replace(/\.part\.ya?ml$/i, ''),
    partClass: uses[0] ?? 'load',
    source: 'to be read from the datasheet',
    terminals: [...terminals],
  });
  return {
    title: say`Create the sheet ${world.nameOf(file)}`,
    edits: [],
    newFiles: [{ file, text }],
    safe: false,
  };
}
