import { later, say, speak } from '../core/language/say.ts';
import { readWords } from '../files/language.ts';
import { CommandError } from './command.ts';
import type { Option } from './options.ts';

/** English, which is the code's own, and every language that a dictionary ships for. */
export const LANGUAGES = ['en', 'de'] as const;

/** The option that every command takes, before its name or behind it. */
export const LANGUAGE = {
  language: { choices: LANGUAGES, about: later`the language of what is said` },
} as const satisfies Readonly<Record<string, Option>>;

let chosen: string | undefined;

/** The language that this process was told to speak; undefined for none, which is English. */
export function chosenLanguage(): string | undefined {
  return chosen;
}

/** Speaks a language from now on. */
export function chooseLanguage(language: string | undefined): void {
  chosen = language;
  speak(readWords(language));
}

/**
 * Takes the language out of what a command was given. It is only what was asked for, never what the surroundings are set
 * to: what is printed is compared, kept and read by programs, and must be the same for everybody.
 * @throws CommandError for a language that there is not
 */
export function takeLanguage(argv: readonly string[]): {
  readonly language: string | undefined;
  readonly rest: readonly string[];
} {
  const end = argv.includes('--') ? argv.indexOf('--') : argv.length;
  const at = argv.findIndex((word, index) => index < end && /^--language(?:=|$)/.test(word));
  const word = argv[at];
  if (word === undefined) return { language: undefined, rest: argv };
  const isApart = word === '--language';
  const language = isApart ? argv[at + 1] : word.slice('--language='.length);
  if (!LANGUAGES.some((known) => known === language))
    throw new CommandError(say`--language takes one of ${LANGUAGES.join(', ')}.`);
  return { language, rest: [...argv.slice(0, at), ...argv.slice(at + (isApart ? 2 : 1))] };
}
