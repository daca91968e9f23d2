import { describe, expect, it } from 'vitest';
import type { SOURCES } from './sources.ts';

/** Where a figure comes from, when it was not read in the source named. */
type Standing = 'published' | 'worked out here' | 'from memory' | 'common practice, no source';

export interface Row {
  /** Number of the row in the project's list of check values. */
  readonly id: string;
  readonly source: keyof typeof SOURCES;
  readonly what: string;
  /** What the core computes, in the unit of the row. */
  readonly value: number;
  /** As printed, digit for digit; absent when nothing is printed. */
  readonly published?: string;
  /** Worked out from the printed formula apart from this code, to seven digits. */
  readonly recomputed?: number;
  readonly standing?: Standing;
  /** One unit of the last printed digit is allowed, not half of one, since the source cuts digits off. */
  readonly truncated?: true;
  /** Why the published figure is not what its own formula gives: the row is held to the recomputed one. */
  readonly differs?: string;
  /** A wider tolerance than 1e-6 on the recomputed figure, with the reason. */
  readonly within?: readonly [relative: number, because: string];
}

/**
 * Holds every figure of a family to its source. A row of the list that has several figures carries a letter after
 * its number. The counts stand in the test names, and fewer figures than expected is a failure.
 */
export function checkRows(family: string, rows: readonly Row[], expected: number): void {
  const ids = new Set(rows.map((row) => row.id));
  const numbers = new Set(rows.map((row) => row.id.slice(0, 4)));
  describe(`${family}: ${ids.size} figures of ${numbers.size} rows`, () => {
    it(`looks at ${expected} different figures`, () => {
      expect(ids.size).toBe(expected);
      expect(ids.size).toBeGreaterThan(0);
    });
    it.each(rows.map((row) => [label(row), row] as const))('%s', (_label, row) => checkRow(row));
  });
}

/** Names rows of which nothing can be computed, so that they are seen to have been looked at. */
export function setAside(rows: Readonly<Record<string, string>>): void {
  for (const [id, why] of Object.entries(rows)) it.skip(`${id}: ${why}`, () => {});
}

function checkRow(row: Row): void {
  const { value, published, recomputed } = row;
  expect(published === undefined && recomputed === undefined, 'a row without a figure').toBe(false);
  if (published !== undefined) {
    const off = Math.abs(value - Number(published));
    const allowed = (row.truncated ? 1 : 0.5) * lastDigit(published) * (1 + 1e-9);
    if (row.differs === undefined) expect(off).toBeLessThanOrEqual(allowed);
    else expect(off, 'the published figure agrees after all').toBeGreaterThan(allowed);
  }
  if (recomputed !== undefined) {
    expect(Math.abs(value / recomputed - 1)).toBeLessThanOrEqual(row.within?.[0] ?? 1e-6);
  }
  if (row.differs !== undefined) expect(recomputed, 'nothing to hold the row to').toBeDefined();
}

/** One unit of the last printed digit: 0.01 for 3.27, 1e-5 for 12.7e-4. */
function lastDigit(printed: string): number {
  const [digits = '', exponent = '0'] = printed.split('e');
  const decimals = digits.split('.')[1]?.length ?? 0;
  return 10 ** (Number(exponent) - decimals);
}

function label(row: Row): string {
  const figures = [
    row.published === undefined ? '' : `published ${row.published}`,
    row.recomputed === undefined ? '' : `recomputed ${row.recomputed}`,
  ].filter((text) => text !== '');
  const remarks = [row.standing, row.differs && `DIFFERS: ${row.differs}`, row.within?.[1]].filter(Boolean);
  return `${row.id} ${row.what}: ${figures.join(', ')} [${[row.source, ...remarks].join('; ')}]`;
}
