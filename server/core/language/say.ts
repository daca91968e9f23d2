import { type Compiled, compile, fill } from './template.ts';

/**
 * The texts of one language: what stands in the code, which is English with `{0}`, `{1}` … for its figures, and the
 * same in that language.
 */
export type Words = Readonly<Record<string, string>>;

/** What may stand in a text: names, figures, and words that the text's own entry turns into its language. */
type Figure = string | number | undefined;

/** The language in use; none is English, which is the code's own and costs no look-up. */
let words: ReadonlyMap<string, string> | undefined;
let compiled = new WeakMap<TemplateStringsArray, Compiled>();

/**
 * Chooses the language of everything that is said from now on; without words it is English. It is chosen once, where a
 * process begins (the client's locale, the environment of a command line, the page's own language), before anything is
 * analysed: what was said before stays as it was said. Nothing that is computed depends on it.
 */
export function speak(language?: Words): void {
  words = language && new Map(Object.entries(language));
  compiled = new WeakMap();
}

/** A text in the language in use: say`${name} gives ${voltage}`. A text that the language lacks is English. */
export function say(parts: TemplateStringsArray, ...figures: readonly Figure[]): string {
  if (words === undefined) return join(parts, figures);
  let pieces = compiled.get(parts);
  if (pieces === undefined) {
    const key = keyOf(parts);
    pieces = compile(words.get(key) ?? key);
    compiled.set(parts, pieces);
  }
  return fill(pieces, figures);
}

/** Marks a text that is written down before the language is known, or that is a name as well; `said` says it. */
export function later([text = '']: TemplateStringsArray): string {
  return text;
}

/** A text that was marked, in the language in use; any other text as it is. */
export function said(text: string): string {
  return words?.get(text) ?? text;
}

/** The code of the language in use, for what names its language, such as HTML: each dictionary says its own. */
export function languageCode(): string {
  return say`en`;
}

/**
 * What is written into files is English in every language, so that a file does not depend on who wrote it.
 * @param made what was made in the language in use
 * @returns the same as `make` makes it in English
 */
export function inEnglish<T>(made: T, make: () => T): T {
  if (words === undefined) return made;
  const language = words;
  words = undefined;
  try {
    return make();
  } finally {
    words = language;
  }
}

function keyOf(parts: readonly string[]): string {
  return parts.reduce((key, part, index) => `${key}{${index - 1}}${part}`);
}

function join(parts: readonly string[], figures: readonly Figure[]): string {
  let text = parts[0] ?? '';
  for (let index = 0; index < figures.length; index++) text += `${figures[index]}${parts[index + 1]}`;
  return text;
}
