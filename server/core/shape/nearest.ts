/**
 * The word that was most likely meant, or undefined when none is close: at most one slip in three letters. Upper and
 * lower case, `_` and blanks for `-` count as no slip at all.
 */
export function nearestWord(typed: string, words: Iterable<string>): string | undefined {
  const plain = fold(typed);
  const most = Math.max(1, Math.floor(plain.length / 3));
  let best: string | undefined;
  let least = most + 1;
  for (const word of words) {
    if (Math.abs(word.length - plain.length) >= least) continue;
    const slips = countSlips(plain, fold(word), least);
    if (slips < least) [best, least] = [word, slips];
  }
  // Words of one or two letters are all within one slip of each other.
  return least > 0 && plain.length < 3 ? undefined : best;
}

/** Whether two words differ in spelling habits only. */
export function sameWord(typed: string, word: string): boolean {
  return fold(typed) === fold(word);
}

function fold(word: string): string {
  return word.toLowerCase().replace(/[_\s]+/g, '-');
}

/** Letters inserted, left out, replaced or swapped with their neighbour (optimal string alignment); `limit` when there are as many or more. */
function countSlips(a: string, b: string, limit: number): number {
  let before: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let slips = Math.min(
        (previous[j] ?? 0) + 1,
        (row[j - 1] ?? 0) + 1,
        (previous[j - 1] ?? 0) + (same ? 0 : 1),
      );
      if (a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) slips = Math.min(slips, (before[j - 2] ?? 0) + 1);
      row.push(slips);
      least = Math.min(least, slips);
    }
    if (least >= limit) return limit;
    [before, previous] = [previous, row];
  }
  return previous[b.length] ?? limit;
}
