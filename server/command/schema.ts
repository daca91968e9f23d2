import machine from '../../schemas/machine.schema.json' with { type: 'json' };
import part from '../../schemas/part.schema.json' with { type: 'json' };
import { type Arguments, CommandError, EXIT, type Streams } from './command.ts';

/** `fettle schema machine|part`: the JSON Schema, as it is published. */
export async function printSchema({ files }: Arguments, streams: Streams): Promise<number> {
  const schemas: ReadonlyMap<string, unknown> = new Map<string, unknown>([
    ['machine', machine],
    ['part', part],
  ]);
  const schema = schemas.get(files[0] ?? '');
  if (!schema) throw new CommandError('schema takes one of machine, part.');
  streams.out(`${JSON.stringify(schema, null, 2)}\n`);
  return EXIT.clean;
}
