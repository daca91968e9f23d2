/**
 * The name that was probably meant: the nearest by the number of typing slips (a letter too many, too few, wrong, or
 * two swapped), if there are few of them for the length of the word. Undefined when nothing is near enough.
 * The distance is that of Damerau and Levenshtein in its restricted form.
 */
export function nearestName(typed: string, names: Iterable<string>): string | undefined {
  const most = Math.max(1, Math.floor(typed.length / 3));
  let best: { name: string; slips: number } | undefined;
  const wanted = typed.toLowerCase();
  for (const name of names) {
    if (Math.abs(name.length - typed.length) > most) continue;
    const slips = name.toLowerCase() === wanted ? 0.5 : countSlips(wanted, name.toLowerCase(), most);
    if (slips <= most && (!best || slips < best.slips)) best = { name, slips };
  }
  return best?.name;
}

/** Rows of figures that are used again: a name that nobody knows is compared with thousands. */
const rows: [number[], number[], number[]] = [[], [], []];

/** The slips between two words; as soon as there must be more than `most`, that many and one. */
function countSlips(a: string, b: string, most: number): number {
  let [before, last, row] = rows;
  for (let j = 0; j <= b.length; j++) last[j] = j;
  let leastBefore = 0;
  for (let i = 1; i <= a.length; i++) {
    row[0] = i;
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let slips = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        slips = Math.min(slips, (before[j - 2] ?? 0) + 1);
      row[j] = slips;
      least = Math.min(least, slips);
    }
    // Every way goes on from this row, or with two letters that are swapped from the one before it.
    if (least > most && leastBefore >= most) return most + 1;
    leastBefore = least;
    [before, last, row] = [last, row, before];
  }
  return last[b.length] ?? 0;
}
