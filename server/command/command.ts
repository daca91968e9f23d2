/** Where a command writes: its result, and what it says about it. */
export interface Streams {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
}

/** What a command was given after its name. */
export interface Arguments {
  readonly files: readonly string[];
  readonly format: string | undefined;
  readonly output: string | undefined;
  readonly group: string | undefined;
  readonly operated: string | undefined;
  /** Values to try, as `PATH=VALUE`. */
  readonly set: readonly string[];
}

/** Exit codes: 0 clean or hints only, 1 findings, 2 the command could not run. */
export const EXIT = { clean: 0, findings: 1, cannot: 2 } as const;

/** Says why a command cannot run, in one line that tells what to do. */
export class CommandError extends Error {}

/** The format that was asked for, if the command has it. */
export function chooseFormat<const F extends string>(
  given: string | undefined,
  formats: readonly [F, ...F[]],
): F {
  const format = given ?? formats[0];
  const found = formats.find((each) => each === format);
  if (!found) throw new CommandError(`there is no format ${format}; take ${formats.join(' or ')}.`);
  return found;
}
