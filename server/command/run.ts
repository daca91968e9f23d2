import { say } from '../core/language/say.ts';
import { nearestName } from '../core/nearest.ts';
import { CommandError, EXIT, type Streams } from './command.ts';
import { COMMANDS } from './commands.ts';
import { printCommandHelp, printHelp } from './help.ts';
import { chooseLanguage, takeLanguage } from './language.ts';
import { readArguments } from './options.ts';
import { VERSION } from './version.ts';

/** Runs the command line and gives its exit code. Never throws. */
export async function runCommand(argv: readonly string[], streams: Streams): Promise<number> {
  let asked: string | undefined;
  try {
    const { language, rest: given } = takeLanguage(argv);
    if (language !== undefined) chooseLanguage(language);
    asked = language;
    const [name, ...rest] = given;
    if (name === undefined || ['help', '--help', '-h'].includes(name)) return help(rest[0], name, streams);
    if (name === '--version') {
      streams.out(`${VERSION}\n`);
      return EXIT.clean;
    }
    const command = commandOf(name);
    if (rest.includes('--help') || rest.includes('-h')) {
      streams.out(printCommandHelp(command));
      return EXIT.clean;
    }
    return await command.run(readArguments(name, command.options, rest), streams);
  } catch (failure) {
    streams.err(`fettle: ${describeFailure(failure)}\n`);
    return EXIT.cannot;
  } finally {
    if (asked !== undefined) chooseLanguage(undefined); // what runs next in this process chooses for itself
  }
}

/** Help that was asked for is a result; help for somebody who gave no command is not. */
function help(topic: string | undefined, asked: string | undefined, streams: Streams): number {
  streams.out(topic === undefined ? printHelp(COMMANDS.values()) : printCommandHelp(commandOf(topic)));
  return asked === undefined ? EXIT.cannot : EXIT.clean;
}

function commandOf(name: string) {
  const command = COMMANDS.get(name);
  if (command) return command;
  const near = nearestName(name, COMMANDS.keys());
  throw new CommandError(
    [
      say`there is no command ${name}.`,
      near ? say`Did you mean ${near}?` : '',
      say`"fettle help" lists them.`,
    ]
      .filter((text) => text !== '')
      .join(' '),
  );
}

function describeFailure(failure: unknown): string {
  if (failure instanceof CommandError) return failure.message;
  return say`an internal fault: ${failure instanceof Error ? failure.stack : String(failure)}`;
}
