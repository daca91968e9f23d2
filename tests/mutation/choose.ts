import path from 'node:path';
import type { Random } from '../support/random.ts';
import type { TestPlace, Watched } from './messages.ts';
import type { Mutant } from './mutants.ts';

/** Tests of one mutant. More would only find what these miss, so the score is at worst too low. */
const MOST_TESTS = 60;

/** So many mutants, each as likely as any other (Fisher and Yates, 1938); all of them where there are no more. */
export function sampleOf(mutants: readonly Mutant[], size: number, random: Random): readonly Mutant[] {
  const left = [...mutants];
  for (let index = 0; index < Math.min(size, left.length); index++) {
    const other = index + random.below(left.length - index);
    const [here, there] = [left[index], left[other]];
    if (here && there) [left[index], left[other]] = [there, here];
  }
  return left.slice(0, size);
}

/**
 * The tests that are to notice a mutant: those that pass it, and for what is passed while files are loaded those that run
 * through its file afterwards. The nearest come first: those named like it, then those that run through little else.
 */
export function testsFor({ id, file }: Mutant, tests: readonly Watched[]): readonly TestPlace[] {
  const words = path.dirname(file).split('/').slice(3).concat(path.basename(file, '.ts'));
  const nearness = ({ name, file: place }: Watched): number =>
    words.filter((word) => name.includes(word) || path.basename(place).startsWith(`${word}.`)).length;
  return tests
    .filter((test) => test.hits[id] !== undefined || (test.loaded.includes(id) && test.files.includes(file)))
    .map((test) => ({ test, near: nearness(test) }))
    .toSorted(
      (a, b) =>
        b.near - a.near || a.test.files.length - b.test.files.length || a.test.duration - b.test.duration,
    )
    .slice(0, MOST_TESTS)
    .map(({ test }) => ({ id: test.id, file: test.file }));
}
