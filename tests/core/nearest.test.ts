import { expect, test } from 'vitest';
import { nearestName } from '../../server/core/nearest.ts';
import { randomFrom } from '../support/random.ts';

/** The restricted distance of Damerau and Levenshtein, straight from its recursive definition. */
function slipsBetween(a: string, b: string): number {
  if (a === '' || b === '') return a.length + b.length;
  const known = new Map<string, number>();
  const from = (i: number, j: number): number => {
    if (i === 0 || j === 0) return i + j;
    const key = `${i} ${j}`;
    const there = known.get(key);
    if (there !== undefined) return there;
    const ways = [
      from(i - 1, j) + 1,
      from(i, j - 1) + 1,
      from(i - 1, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1),
    ];
    const areSwapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
    if (areSwapped) ways.push(from(i - 2, j - 2) + 1);
    const least = Math.min(...ways);
    known.set(key, least);
    return least;
  };
  return from(a.length, b.length);
}

test('a name is near that differs by few slips for the length of the word', () => {
  const random = randomFrom(11);
  const word = () => Array.from({ length: 1 + random.below(9) }, () => random.oneOf(['a', 'b'])).join('');
  let near = 0;
  for (let round = 0; round < 4000; round++) {
    const typed = word();
    const names = [word(), word(), word()];
    const most = Math.max(1, Math.floor(typed.length / 3));
    const [best] = names
      .map((name) => ({ name, slips: name === typed ? 0.5 : slipsBetween(typed, name) }))
      .filter(({ slips }) => slips <= most)
      .toSorted((a, b) => a.slips - b.slips);
    expect(nearestName(typed, names), `${typed} of ${names.join(', ')}`).toBe(best?.name);
    if (best) near++;
  }
  expect(near).toBeGreaterThan(1000);
  expect(near).toBeLessThan(3500);
});

test.each([
  ['drvie-x', 'drive-x'],
  ['drive-', 'drive-x'],
  ['drivee-x', 'drive-x'],
  ['Drive-X', 'drive-x'],
  ['pump', undefined],
])('%s is taken for %s', (typed, meant) => {
  expect(nearestName(typed, ['motor-x', 'drive-x', 'panel'])).toBe(meant);
});
