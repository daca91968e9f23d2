import type { Option, OptionValues } from './options.ts';

/** Where a command writes: its result, and what it says about it; and what it may ask of its surroundings. */
export interface Streams {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Reads standard input to its end. */
  readonly input?: () => Promise<string>;
  /** Asks a person at a terminal; undefined when they end it. Absent where nobody can be asked. */
  readonly ask?: (prompt: string) => Promise<string | undefined>;
  /** True when results are shown on a terminal that has colours. */
  readonly colour?: boolean;
  /** True when talk is shown on a terminal, where a line can be written over. */
  readonly progress?: boolean;
  /** The program that a worker thread runs; without it everything runs in this thread. */
  readonly program?: string;
}

/** What a command was given after its name. */
export interface Arguments<O extends Readonly<Record<string, Option>>> {
  readonly operands: readonly string[];
  readonly options: OptionValues<O>;
}

/** What a person reads about a command. */
interface Description {
  readonly name: string;
  /** What stands after the name and the options, e.g. `FILES`. */
  readonly operands: string;
  /** What it does, in one line for the list of commands. */
  readonly about: string;
  /** What else to know about it; lines of at most 110 characters. */
  readonly details?: string;
  readonly examples: readonly string[];
}

/** A command of the command line, as the table of commands holds it. */
export interface Command extends Description {
  readonly options: Readonly<Record<string, Option>>;
  /** @throws CommandError when it cannot run */
  readonly run: (
    args: Arguments<Readonly<Record<string, Option>>>,
    streams: Streams,
  ) => number | Promise<number>;
}

/** Describes a command; the types of its values follow from its options. */
export function defineCommand<const O extends Readonly<Record<string, Option>>>(
  command: Description & {
    readonly options: O;
    readonly run: (args: Arguments<O>, streams: Streams) => number | Promise<number>;
  },
): Command {
  // What `run` is given was read by these very options, so it has the types that they promise.
  return command as unknown as Command;
}

/** Exit codes: 0 clean or hints only, 1 findings, 2 the command could not run. */
export const EXIT = { clean: 0, findings: 1, cannot: 2 } as const;

/** Says why a command cannot run, in one line that tells what to do. */
export class CommandError extends Error {}

/** The only operand of a command that takes one file. */
export function onlyFile(operands: readonly string[], message: string): string {
  const [file, ...others] = operands;
  if (file === undefined || others.length > 0) throw new CommandError(message);
  return file;
}
