import { AXES } from '../../../schemas/roles.ts';
import { later, said } from '../language/say.ts';

/** What a part uses a circuit for, taken apart: `limit X far` is the word `limit`, the axis X and the last word `far`. */
export interface Role {
  readonly word: string;
  readonly axis: string | undefined;
  readonly last: string | undefined;
}

const letters: readonly string[] = AXES;

/** Takes a `does:` text apart; undefined where there is none. Whether the words exist is the schema's business. */
export function readRole(text: string | undefined): Role | undefined {
  if (!text) return undefined;
  const words = text.trim().split(/\s+/);
  if (words[0] === 'handwheel') return { word: words.join(' '), axis: undefined, last: undefined };
  const at = words.findIndex((word, index) => index > 0 && letters.includes(word));
  if (at >= 0) return { word: words.slice(0, at).join(' '), axis: words[at], last: words[at + 1] };
  if (words[0] === 'step-select') return { word: 'step-select', axis: undefined, last: words[1] };
  return { word: words.join(' '), axis: undefined, last: undefined };
}

/** The words of `does:`, to be said. */
const WORDS: ReadonlySet<string> = new Set([
  later`pulse`,
  later`direction`,
  later`enable`,
  later`limit`,
  later`home`,
  later`probe`,
  later`emergency-stop`,
  later`reset`,
  later`start`,
  later`pause`,
  later`alarm`,
  later`spindle run`,
  later`spindle reverse`,
  later`spindle speed`,
  later`coolant`,
  later`lubrication`,
  later`handwheel A`,
  later`handwheel B`,
  later`axis-select`,
  later`step-select`,
  later`far`,
  later`near`,
]);

/** A `does:` text in the language in use; in English it is as files have it. */
export function sayRole(text: string): string {
  const { word = text, axis, last } = readRole(text) ?? {};
  return [word, axis, last]
    .filter((each) => each !== undefined)
    .map((each) => (WORDS.has(each) ? said(each) : each))
    .join(' ');
}

/** What a circuit is used for, or else its name. */
export function sayUse(name: string, does: string | undefined): string {
  return does === undefined || does === '' ? name.replaceAll('-', ' ') : sayRole(does);
}
