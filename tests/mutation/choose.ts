import path from 'node:path';
import type { Random } from '../support/random.ts';
import type { TestPlace, Watched } from './messages.ts';
import type { Mutant } from './mutants.ts';

/** Tests of one file for one mutant. More would only find what these miss, so the score is at worst too low. */
export const MOST_TESTS = 150;

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
 * The tests that are to notice a mutant: those that pass it, and all of a file that passes it while it is loaded, since
 * tests of tables compute what they compare there. Of each file the nearest are taken: those named like it, then those
 * that pass it themselves, then those that run through little else. Files that are soon done come first, since the first
 * test that fails ends the run; which tests run has nothing to do with the order.
 */
export function testsFor({ id, file }: Mutant, tests: readonly Watched[]): readonly TestPlace[] {
  const words = path.dirname(file).split('/').slice(3).concat(path.basename(file, '.ts'));
  const farness = ({ name, file: place, hits, files, duration }: Watched): readonly number[] => [
    -words.filter((word) => name.includes(word) || path.basename(place).startsWith(word)).length,
    hits[id] === undefined ? 1 : 0,
    files.length,
    duration,
  ];
  const nearest = tests
    .filter((test) => test.hits[id] !== undefined || test.loaded[id] !== undefined)
    .map((test) => ({ test, far: farness(test) }))
    .toSorted((a, b) => compare(a.far, b.far))
    .map(({ test }) => test);
  return [...new Set(nearest.map(({ file: place }) => place))]
    .map((place) => nearest.filter((test) => test.file === place).slice(0, MOST_TESTS))
    .toSorted((a, b) => costOf(a) - costOf(b))
    .flat()
    .map((test) => ({ id: test.id, file: test.file }));
}

/** How long some tests of one file take, in ms. */
function costOf(tests: readonly Watched[]): number {
  return tests.reduce((sum, { duration }) => sum + duration, tests[0]?.loading ?? 0);
}

/** Compares lists of figures by the first that differs. */
function compare(a: readonly number[], b: readonly number[]): number {
  const at = a.findIndex((figure, index) => figure !== b[index]);
  return at < 0 ? 0 : (a[at] ?? 0) - (b[at] ?? 0);
}
