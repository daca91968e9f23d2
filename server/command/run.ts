import { parseArgs } from 'node:util';
import { nearestName } from '../core/nearest.ts';
import { check } from './check.ts';
import { type Arguments, CommandError, EXIT, type Streams } from './command.ts';
import { explainValue } from './explain.ts';
import { HELP, helpFor } from './help.ts';
import { printNetlist } from './netlist.ts';
import { report } from './report.ts';
import { printSchema } from './schema.ts';
import { VERSION } from './version.ts';

type Command = (args: Arguments, streams: Streams) => Promise<number>;

const COMMANDS: ReadonlyMap<string, Command> = new Map([
  ['check', check],
  ['report', report],
  ['explain', explainValue],
  ['netlist', printNetlist],
  ['schema', printSchema],
]);

/** Runs the command line and gives its exit code. Never throws. */
export async function runCommand(argv: readonly string[], streams: Streams): Promise<number> {
  try {
    const [name, ...rest] = argv;
    if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
      streams.out(rest[0] === undefined ? HELP : helpFor(rest[0]));
      return name === undefined ? EXIT.cannot : EXIT.clean;
    }
    if (name === '--version') {
      streams.out(`${VERSION}\n`);
      return EXIT.clean;
    }
    const command = COMMANDS.get(name);
    if (!command) throw new CommandError(unknownCommand(name));
    if (rest.includes('--help') || rest.includes('-h')) {
      streams.out(helpFor(name));
      return EXIT.clean;
    }
    return await command(readArguments(name, rest), streams);
  } catch (failure) {
    streams.err(`fettle: ${describeFailure(failure)}\n`);
    return EXIT.cannot;
  }
}

function describeFailure(failure: unknown): string {
  if (failure instanceof CommandError) return failure.message;
  return `an internal fault: ${failure instanceof Error ? failure.stack : String(failure)}`;
}

function unknownCommand(name: string): string {
  const near = nearestName(name, COMMANDS.keys());
  return `there is no command ${name}.${near ? ` Did you mean ${near}?` : ''} "fettle help" lists them.`;
}

function readArguments(name: string, rest: readonly string[]): Arguments {
  try {
    const { values, positionals } = parseArgs({
      args: [...rest],
      allowPositionals: true,
      options: {
        format: { type: 'string' },
        output: { type: 'string', short: 'o' },
        group: { type: 'string' },
        operated: { type: 'string' },
        set: { type: 'string', multiple: true },
      },
    });
    const { format, output, group, operated, set = [] } = values;
    return { files: positionals, format, output, group, operated, set };
  } catch (failure) {
    throw new CommandError(
      `${(failure as Error).message.split('.')[0]}. "fettle help ${name}" shows what it takes.`,
    );
  }
}
