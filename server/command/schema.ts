import machine from '../../schemas/machine.schema.json' with { type: 'json' };
import part from '../../schemas/part.schema.json' with { type: 'json' };
import project from '../../schemas/project.schema.json' with { type: 'json' };
import { later, say } from '../core/language/say.ts';
import { CommandError, defineCommand, EXIT, onlyFile } from './command.ts';

const SCHEMAS: ReadonlyMap<string, unknown> = new Map<string, unknown>([
  ['machine', machine],
  ['part', part],
  ['project', project],
]);
const sayTakes = () => say`schema takes one of machine, part, project.`;

/** `fettle schema machine|part|project`: the JSON Schema, as it is published. */
export const schema = defineCommand({
  name: 'schema',
  operands: 'machine|part|project',
  about: later`the JSON Schema of a file, for editors without a language server`,
  details: later`JSON Schema draft 2020-12.`,
  options: {},
  examples: ['fettle schema machine > machine.schema.json'],
  run: ({ operands }, streams) => {
    const found = SCHEMAS.get(onlyFile(operands, sayTakes()));
    if (!found) throw new CommandError(sayTakes());
    streams.out(`${JSON.stringify(found, null, 2)}\n`);
    return EXIT.clean;
  },
});
