import { AXES } from '../../../schemas/roles.ts';

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
