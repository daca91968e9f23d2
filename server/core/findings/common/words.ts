import { say } from '../../language/say.ts';
import type { Data } from '../../problem.ts';

/** A word or figure of a finding's data, as text; empty where there is none. */
export function word(data: Data, key: string): string {
  const value = data[key];
  return value === undefined ? '' : Array.isArray(value) ? joinWords(value) : String(value);
}

/** A list of a finding's data; empty where there is none. */
export function wordList(data: Data, key: string): readonly string[] {
  const value = data[key];
  return Array.isArray(value) ? value : [];
}

/** A figure of a finding's data; 0 where there is none. */
export function figure(data: Data, key: string): number {
  const value = data[key];
  return typeof value === 'number' ? value : 0;
}

/** `A`, `A or B`, `A, B or C`; a long list ends in an ellipsis, since nobody reads forty names. */
export function joinWords(words: readonly string[], last: 'and' | 'or' = 'or', most = 8): string {
  if (words.length > most) return `${words.slice(0, most).join(', ')}, …`;
  const [end, ...before] = [...words].reverse();
  if (end === undefined) return '';
  if (before.length === 0) return end;
  const start = before.reverse().join(', ');
  return last === 'and' ? say`${start} and ${end}` : say`${start} or ${end}`;
}

/** Asks for the name that was probably meant; else says what there is to choose from. */
export function suggest(nearest: string, known: readonly string[], what: string): string {
  if (nearest !== '') return say`Did you mean ${nearest}?`;
  return known.length > 0
    ? say`There ${known.length === 1 ? 'is' : 'are'} ${what}: ${joinWords(known, 'and')}.`
    : '';
}

/** `in 3 places`; empty for one. */
export function places(count: number): string {
  return count > 1 ? say` in ${count} places` : '';
}

/** A noun with its article: `a screen`, `an earth`. */
export function withArticle(noun: string): string {
  return /^[aeiou]/i.test(noun) ? say`an ${noun}` : say`a ${noun}`;
}
