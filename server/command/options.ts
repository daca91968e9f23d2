import { parseArgs } from 'node:util';
import { said, say } from '../core/language/say.ts';
import { nearestName } from '../core/nearest.ts';
import { CommandError } from './command.ts';

/** An option of a command. One that takes nothing is a switch. */
export interface Option {
  /** What it is for: a text that was marked, or what says it where figures stand in it. */
  readonly about: string | (() => string);
  /** What it takes, as help shows it, e.g. `FILE`. */
  readonly takes?: string;
  /** The words that it takes; the first is the one that holds when it is not given. */
  readonly choices?: readonly [string, ...string[]];
  /** True when it may be given several times. */
  readonly many?: true;
  /** One letter, for those who type it often. */
  readonly short?: string;
}

type ValueOf<O extends Option> = O extends { readonly many: true }
  ? readonly string[]
  : O extends { readonly choices: readonly (infer C)[] }
    ? C
    : O extends { readonly takes: string }
      ? string | undefined
      : boolean;

/** The values of options: a word of the choices, a text or nothing, a list, or whether a switch was given. */
export type OptionValues<O extends Readonly<Record<string, Option>>> = {
  readonly [K in keyof O]: ValueOf<O[K]>;
};

/** Reads what stands after a command's name. @throws CommandError with what to do instead */
export function readArguments<const O extends Readonly<Record<string, Option>>>(
  name: string,
  options: O,
  rest: readonly string[],
): { operands: readonly string[]; options: OptionValues<O> } {
  const { positionals, values } = parse(name, options, rest);
  const read = Object.entries(options).map(([key, option]) => [key, readValue(key, option, values[key])]);
  return { operands: positionals, options: Object.fromEntries(read) as OptionValues<O> };
}

function parse(name: string, options: Readonly<Record<string, Option>>, rest: readonly string[]) {
  try {
    return parseArgs({
      args: [...rest],
      allowPositionals: true,
      options: Object.fromEntries(
        Object.entries(options).map(([key, { short, many = false, ...option }]) => [
          key,
          {
            type: takesValue(option) ? 'string' : 'boolean',
            multiple: many,
            ...(short && { short }),
          } as const,
        ]),
      ),
    });
  } catch (failure) {
    const message = sayFault((failure as Error).message);
    const given = UNKNOWN.exec((failure as Error).message)?.[2];
    const near = given === undefined ? undefined : nearestName(given, [...Object.keys(options), 'language']);
    const meant = near === undefined ? '' : ` ${say`Did you mean --${near}?`}`;
    throw new CommandError(`${message}.${meant} ${say`"fettle help ${name}" shows what it takes.`}`);
  }
}

/** How node words what is wrong with options. */
const UNKNOWN = /^Unknown option '(--?)([^']*)'/;
const LACKS = /^Option '([^']*)' argument missing/;
const TAKES_NONE = /^Option '([^']*)' does not take an argument/;

function sayFault(message: string): string {
  const [, dashes, unknown] = UNKNOWN.exec(message) ?? [];
  if (unknown !== undefined) return say`Unknown option '${dashes}${unknown}'`;
  const lacks = LACKS.exec(message)?.[1];
  if (lacks !== undefined) return say`Option '${lacks}' argument missing`;
  const none = TAKES_NONE.exec(message)?.[1];
  if (none !== undefined) return say`Option '${none}' does not take an argument`;
  return message.split('.')[0] ?? '';
}

/** What an option is for, in the language in use. */
export function sayAbout(about: Option['about']): string {
  return typeof about === 'string' ? said(about) : about();
}

/** True for options that are followed by a value. */
export function takesValue({ takes, choices }: Pick<Option, 'takes' | 'choices'>): boolean {
  return takes !== undefined || choices !== undefined;
}

/** What the parser of node gives: a text, a list of them, whether a switch was given, or nothing. */
type Parsed = string | boolean | readonly (string | boolean)[] | undefined;

function readValue(key: string, option: Option, given: Parsed): Parsed {
  const { choices, many } = option;
  if (many) return given ?? [];
  if (!takesValue(option)) return given === true;
  if (!choices) return given;
  const word = typeof given === 'string' ? given : choices[0];
  const found = choices.find((choice) => choice === word);
  if (found !== undefined) return found;
  const near = nearestName(word, choices);
  const help = near
    ? say`did you mean ${near}?`
    : say`take ${choices.slice(0, -1).join(', ')} or ${choices.at(-1)}.`;
  throw new CommandError(say`there is no ${key} ${word}; ${help}`);
}
