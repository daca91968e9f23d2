import { expect, it } from 'vitest';

/**
 * Puts each bad figure in each place of a function's good arguments and expects NaN every time.
 * @param good arguments that give a number
 * @param bad figures that the function does not take, by default those below zero and NaN
 */
export function expectNaN<Arguments extends readonly number[]>(
  compute: (...given: Arguments) => number,
  good: Arguments,
  bad: readonly number[] = [-1, Number.NaN],
): void {
  it(`${compute.name} gives NaN for ${bad.join(' and ')} in each of ${good.length} places`, () => {
    expect(compute(...good)).not.toBeNaN();
    for (const place of good.keys()) {
      for (const figure of bad) {
        const spoilt = good.map((value, index) => (index === place ? figure : value)) as unknown as Arguments;
        expect(compute(...spoilt), `${figure} in place ${place}`).toBeNaN();
      }
    }
  });
}
