import { nearestName } from '../nearest.ts';

/**
 * The word of the format that was most likely meant, or undefined. Capitals, blanks and `_` for `-` are no slips. Words
 * of one or two letters are all within one slip of each other, so of these only a difference in case is cured.
 */
export function nearestWord(typed: string, words: Iterable<string>): string | undefined {
  const known = new Map([...words].map((word) => [fold(word), word]));
  const wanted = fold(typed);
  const near = known.has(wanted) || typed.length < 3 ? wanted : nearestName(wanted, known.keys());
  return near === undefined ? undefined : known.get(near);
}

/** Whether two words differ in spelling habits only. */
export function sameWord(typed: string, word: string): boolean {
  return fold(typed) === fold(word);
}

function fold(word: string): string {
  return word.toLowerCase().replace(/[_\s]+/g, '-');
}
